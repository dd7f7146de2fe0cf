/** What the fibre words of a label tell: whether there is hair of an animal in it, and whether it felts. */
import type { Yarn } from "./yarn.ts";

/** "unknown": nobody has said, which is neither yes nor no. */
export type Told = "yes" | "no" | "unknown";

/**
 * Whether there is wool or another animal's hair in it; silk is neither.
 * Words of labels in English, German, French, Spanish, Italian, Dutch and the Scandinavian languages, from memory.
 */
export function hasHair({ fibre }: Pick<Yarn, "fibre">): Told {
  const words = plainWords(fibre);
  if (HAIR.test(words)) return "yes";
  return OTHER_FIBRE.test(words) ? "no" : "unknown";
}

/**
 * Whether it felts when it is rubbed in warm water: hair does unless it was treated; no other fibre does.
 * Source: trade.md 2 and 4 (common practice); that plant and man-made fibres do not is a thing of the trade.
 */
export function felts(yarn: Pick<Yarn, "fibre" | "superwash">): Told {
  if (yarn.superwash !== undefined) return yarn.superwash ? "no" : "yes";
  const words = plainWords(yarn.fibre);
  if (NOT_TREATED.test(words)) return "yes";
  if (TREATED.test(words)) return "no";
  return hasHair(yarn) === "no" ? "no" : "unknown";
}

/** Small letters without accents; a German cotton is no wool. */
const plainWords = (fibre = ""): string =>
  fibre.normalize("NFD").replace(/\p{M}/gu, "").toLowerCase().replaceAll("baumwolle", "cotton");

const HAIR =
  /wool|wolle|\bwol\b|\bull\b|\buld\b|\blaine|\blana\b|merino|shetland|mohair|alpa(?:c|kk?)a|angora|[ck]as[ch]+mir|cashmere|lama\b|llama|\byaks?\b|camel|kamel|qiviut|vicuna|guanaco/;
const OTHER_FIBRE =
  /cotton|coton|algodon|cotone|katoen|bomull|bomuld|linen|leinen|\blin\b|\blino\b|linnen|hemp|hanf|bamboo|bambus|viscose|viskose|rayon|lyocell|modal|silk|seide|\bsoie|\bseda\b|\bseta\b|zijde|silke|acryl|polyester|polyamid|nylon/;
const TREATED = /super\s?-?wash/;
const NOT_TREATED = /\b(?:non|not|no|nicht|pas|ej|ikke)\b[\s-]*super\s?-?wash/;
