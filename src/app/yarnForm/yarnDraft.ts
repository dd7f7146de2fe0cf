/** A yarn as it is being typed, and the record that comes of it once every field can be read. */
import { problemSentence, type Problem } from "../../base/problem.ts";
import type { YarnFields } from "../../document/plainEdit.ts";
import { readQuantity, readThickness } from "../../intake/quantity.ts";
import { lotsOfYarn } from "../../yarn/lots.ts";
import type { Lot, Yarn } from "../../yarn/yarn.ts";

export interface LotDraft {
  readonly id: string;
  readonly lot: string;
  readonly grams: string;
  readonly weighed: boolean;
}

/** "": not known. */
export type YesNo = "" | "yes" | "no";

export interface YarnDraft {
  readonly name: string;
  readonly maker: string;
  readonly fibre: string;
  /** "420", "105 m in 25 g", "230 yd in 50 g". */
  readonly length: string;
  readonly lots: readonly LotDraft[];
  readonly plies: string;
  /** "0" to "7", or "" where the label has none. */
  readonly weightClass: string;
  readonly superwash: YesNo;
  readonly handDyed: YesNo;
  readonly note: string;
}

export type DraftField = "name" | "length" | "plies" | `grams ${string}`;

const yesNo = (flag: boolean | undefined): YesNo => (flag === undefined ? "" : flag ? "yes" : "no");
const number = (value: number): string => String(Number(value.toFixed(2)));

export function draftOf(yarn: Yarn | null): YarnDraft {
  const lots = (yarn ? lotsOfYarn(yarn) : []).map(({ id, lot = "", grams, weighed = false }) => ({
    id,
    lot,
    grams: grams === undefined ? "" : `${number(grams)} g`,
    weighed,
  }));
  return {
    name: yarn?.name ?? "",
    maker: yarn?.maker ?? "",
    fibre: yarn?.fibre ?? "",
    length: yarn?.metresPer100g === undefined ? "" : `${number(yarn.metresPer100g)} m in 100 g`,
    lots: lots.length > 0 ? lots : [{ id: "l1", lot: "", grams: "", weighed: false }],
    plies: yarn?.plies === undefined ? "" : String(yarn.plies),
    weightClass: yarn?.weightClass === undefined ? "" : String(yarn.weightClass),
    superwash: yesNo(yarn?.superwash),
    handDyed: yesNo(yarn?.handDyed),
    note: yarn?.note ?? "",
  };
}

export interface ReadDraft {
  /** null goes; all of them are named. */
  readonly fields: YarnFields & { readonly name: string };
  /** One sentence for each field that cannot be read. */
  readonly wrong: Readonly<Partial<Record<DraftField, string>>>;
}

export function readDraft(draft: YarnDraft): ReadDraft {
  const wrong: Partial<Record<DraftField, string>> = {};
  const refuse = (field: DraftField, problem: Omit<Problem, "severity">): null => {
    wrong[field] = problemSentence({ ...problem, severity: "fault" });
    return null;
  };
  const name = draft.name.trim();
  if (name === "") refuse("name", { where: "the name", expected: "what you call this yarn", got: "nothing" });
  const flag = (said: YesNo): boolean | null => (said === "" ? null : said === "yes");
  const lots = draft.lots.map((lot) => readLot(lot, refuse)).filter((lot) => lot !== null);
  const only = lots.length === 1 ? lots[0]! : null;
  // One lot of which nothing but its weight is known is the yarn's own weight.
  const isPlain = only !== null && only.lot === undefined && only.weighed === undefined;
  const fields = {
    name,
    maker: draft.maker.trim() || null,
    fibre: draft.fibre.trim() || null,
    note: draft.note.trim() || null,
    metresPer100g: readLength(draft.length, refuse),
    grams: isPlain ? (only.grams ?? null) : null,
    lots: lots.length === 0 || isPlain ? null : lots,
    plies: readPlies(draft.plies, refuse),
    weightClass: draft.weightClass === "" ? null : Number(draft.weightClass),
    superwash: flag(draft.superwash),
    handDyed: flag(draft.handDyed),
  };
  return { fields, wrong };
}

type Refuse = (field: DraftField, problem: Omit<Problem, "severity">) => null;

/** Metres per 100 g; a bare length is one of 100 g. */
function readLength(text: string, refuse: Refuse): number | null {
  if (text.trim() === "") return null;
  const whole = readThickness(text, ".");
  if (whole) return whole.metresPer100g;
  const bare = readQuantity(text, ".");
  if (bare && (bare.unit === "m" || bare.unit === "") && bare.value > 0) return bare.value;
  const expected = "metres in 100 g, or such as “105 m in 25 g” or “230 yd in 50 g”";
  return refuse("length", { where: "the length", expected, got: `“${text.trim().slice(0, 40)}”` });
}

function readPlies(text: string, refuse: Refuse): number | null {
  if (text.trim() === "") return null;
  const plies = Number(text);
  if (Number.isInteger(plies) && plies >= 1 && plies <= MOST_PLIES) return plies;
  const expected = `a whole number from 1 to ${MOST_PLIES}`;
  return refuse("plies", { where: "the plies", expected, got: `“${text.trim().slice(0, 20)}”` });
}

/** Far more strands than are ever twisted together; our choice, to catch a slip of the finger. */
const MOST_PLIES = 100;

function readLot({ id, lot, grams, weighed }: LotDraft, refuse: Refuse): Lot | null {
  const named = lot.trim() === "" ? {} : { lot: lot.trim() };
  const scales = weighed ? { weighed } : {};
  if (grams.trim() === "") return named.lot === undefined ? null : { id, ...named };
  const read = readQuantity(grams, ".");
  if (read && (read.unit === "g" || read.unit === "") && read.value >= 0)
    return { id, ...named, grams: read.value, ...scales };
  const expected = "a weight such as “43 g”, “2 x 50 g” or “1.5 oz”";
  return refuse(`grams ${id}`, { where: "the weight", expected, got: `“${grams.trim().slice(0, 40)}”` });
}

/** A new yarn has no fields to lose. */
export function yarnOf(id: string, fields: ReadDraft["fields"], shade: NonNullable<Yarn["shade"]>): Yarn {
  const said = Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== null));
  return { ...said, id, name: fields.name, shade };
}
