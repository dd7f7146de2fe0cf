/** Flecks of a yarn as one cell of a table: "0.12 × #8a5a2b 4 mm + 0.3 × lab(40, 12, -3) ±4 photo", written and read back. */
import { SHADE_SOURCES, type Shade, type ShadeSource } from "../colour/shade.ts";
import type { Fleck } from "../yarn/yarn.ts";
import { findShade } from "./statedShade.ts";

/** Null where a part cannot be read; shares of 0 to 1, or in per cent. */
export function readFlecks(cell: string): Fleck[] | null {
  const flecks = cell.split(/\s+\+\s+/).map(readFleck);
  return flecks.every((fleck) => fleck !== null) ? flecks : null;
}

export const fleckText = (flecks: readonly Fleck[]): string =>
  flecks
    .map(({ shade, share, lengthMm }) => {
      const { hex, lab, uncertainty, from } = shade;
      return [
        `${share} ×`,
        hex ?? "",
        lab ? `lab(${lab.join(", ")})` : "",
        uncertainty === undefined ? "" : `±${uncertainty}`,
        from ?? "",
        lengthMm === undefined ? "" : `${lengthMm} mm`,
      ]
        .filter(Boolean)
        .join(" ");
    })
    .join(" + ");

function readFleck(part: string): Fleck | null {
  const head = /^\s*(\d+(?:\.\d+)?(?:e-\d{1,3})?)\s*(%?)\s*[×x*]?\s*(.+)$/i.exec(part);
  if (!head) return null;
  const share = Number(head[1]) / (head[2] ? 100 : 1);
  const rest = head[3]!;
  const hex = /#(?:[0-9a-f]{6}|[0-9a-f]{3})(?![0-9a-z])/i.exec(rest)?.[0].toLowerCase();
  const lab = /\blab\s*\(/i.test(rest) ? findShade(rest.replace(hex ?? "", ""))?.lab : undefined;
  const range = number(/±\s*(\d+(?:\.\d+)?(?:e-?\d{1,3})?)/.exec(rest)?.[1]);
  const length = number(/(\d+(?:\.\d+)?(?:e[-+]?\d{1,3})?)\s*mm\b/.exec(rest)?.[1]);
  const from = SHADE_SOURCES.find((source): source is ShadeSource => new RegExp(`\\b${source}\\b`).test(rest));
  const plain = hex === undefined && !lab ? findShade(rest)?.hex : hex;
  if (share > 1 || (plain === undefined && !lab) || (range ?? 0) > 100 || length === 0) return null;
  const shade: Shade = {
    ...(plain === undefined ? {} : { hex: plain }),
    ...(lab ? { lab } : {}),
    ...(range === undefined ? {} : { uncertainty: range }),
    ...(from ? { from } : {}),
  };
  return { shade, share, ...(length === undefined ? {} : { lengthMm: length }) };
}

const number = (text: string | undefined): number | undefined => (text === undefined ? undefined : Number(text));
