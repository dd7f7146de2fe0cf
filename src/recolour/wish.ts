/** A wish: what stays, what is allowed and how it should look; every part is optional. */
import type { Problem } from "../base/problem.ts";
import { findBands } from "../chart/bands.ts";
import { gridOf, type Want } from "../chart/chart.ts";
import { PLAIN_NAME_WORDS } from "../colour/names.ts";
import type { Pattern } from "../fabric/pattern.ts";
import type { Place } from "../garment/place.ts";
import type { Yarn } from "../yarn/yarn.ts";
import type { Terms } from "./score.ts";
import { feltingOf, type Together } from "./together.ts";

export interface Wish {
  readonly keep?: readonly Kept[];
  readonly never?: readonly string[];
  readonly only?: readonly string[] | "stash";
  readonly ladder?: "same" | "reversed" | "free";
  readonly look?: readonly Look[];
  readonly bands?: readonly { readonly band: string; readonly want: Want }[];
  readonly share?: { readonly allow: boolean | readonly (readonly [string, string])[] };
  /** How closely the pattern's contrasts between neighbours and its loud and quiet places are kept. */
  readonly character?: "close" | "usual" | "free";
  /** The whole fabric against the pattern. */
  readonly fabric?: "quieter" | "louder";
  /** Bands that echo one another keep their contrasts the same way round. */
  readonly echoes?: "alike";
  /** Yarns that must occur. */
  readonly use?: readonly string[];
  readonly together?: Together;
  /** Factors on the usual weights of the score's terms. */
  readonly weights?: Partial<Terms>;
  /** How many places may take a shade that she has yet to find. */
  readonly buy?: number;
  readonly ways?: number;
}

/** A chart colour that keeps its yarn, everywhere or at a place. */
export interface Kept {
  readonly colour: string;
  readonly yarn: string;
  readonly at?: Place;
}

/** How a chart colour, or the pattern colours of a band, should look. "hue:NAME" is a word of a plain colour name. */
export interface Look {
  readonly colour?: string;
  readonly band?: string;
  readonly be: string;
}

const BE = ["like-original", "quieter", "louder", "light", "dark"];

/** What in a wish names something that is not there, or says what cannot be understood. Where it is a fault the wish is not searched. */
export function wishProblems(wish: Wish, pattern: Pattern, yarns: readonly Yarn[]): Problem[] {
  const problems: Problem[] = [];
  const colours = new Set(pattern.colours.map(({ id }) => id));
  const owned = new Set(yarns.map(({ id }) => id));
  const bands = new Set(
    pattern.charts.flatMap((chart) => findBands(chart, gridOf(chart)).flatMap(({ id, name }) => [id, name ?? id])),
  );
  const need = (known: ReadonlySet<string>, value: string, where: string, what: string): void => {
    if (!known.has(value)) problems.push({ where, expected: what, got: JSON.stringify(value), severity: "fault" });
  };
  wish.keep?.forEach(({ colour, yarn }, index) => {
    need(colours, colour, `keep[${index}].colour`, "a chart colour of the pattern");
    need(owned, yarn, `keep[${index}].yarn`, "the id of one of the yarns");
  });
  wish.never?.forEach((yarn, index) => need(owned, yarn, `never[${index}]`, "the id of one of the yarns"));
  if (wish.only && wish.only !== "stash")
    wish.only.forEach((yarn, index) => need(owned, yarn, `only[${index}]`, "the id of one of the yarns"));
  wish.bands?.forEach(({ band }, index) => need(bands, band, `bands[${index}].band`, "the id or name of a band"));
  wish.look?.forEach(({ colour, band, be }, index) => {
    if (colour !== undefined) need(colours, colour, `look[${index}].colour`, "a chart colour of the pattern");
    if (band !== undefined) need(bands, band, `look[${index}].band`, "the id or name of a band");
    if (!BE.includes(be) && !(be.startsWith("hue:") && PLAIN_NAME_WORDS.has(be.slice("hue:".length))))
      problems.push({
        where: `look[${index}].be`,
        expected: `${BE.join(", ")} or hue:NAME with a word of a plain colour name, such as hue:blue`,
        got: JSON.stringify(be),
        severity: "fault",
      });
  });
  if (wish.share && Array.isArray(wish.share.allow))
    wish.share.allow.flat().forEach((colour: string) => need(colours, colour, "share.allow", "pairs of chart colours"));
  wish.use?.forEach((yarn, index) => need(owned, yarn, `use[${index}]`, "the id of one of the yarns"));
  return [...problems, ...placeProblems(wish, pattern), ...contradictions(wish), ...unknownOf(wish, yarns)];
}

/** Places of what is kept that the pattern does not have. */
function placeProblems({ keep = [] }: Wish, { charts, sections = [] }: Pattern): Problem[] {
  return keep.flatMap(({ at }, index): Problem[] => {
    if (!at) return [];
    const where = `keep[${index}].at`;
    if ("section" in at) {
      if (sections.some(({ id }) => id === at.section)) return [];
      return [{ where, expected: "a section of the pattern", got: JSON.stringify(at.section), severity: "fault" }];
    }
    const chart = charts.find(({ id }) => id === at.chart);
    if (!chart)
      return [{ where, expected: "a chart of the pattern", got: JSON.stringify(at.chart), severity: "fault" }];
    const rows = chart.rows.length;
    if (!at.rows || at.rows[1] <= rows) return [];
    const got = `rows ${at.rows.join("–")}`;
    return [{ where: `${where}.rows`, expected: `rows up to ${rows}`, got, severity: "fault" }];
  });
}

/** A yarn that must occur and must not. */
function contradictions({ use = [], never = [], only, keep = [] }: Wish): Problem[] {
  const kept = new Set(keep.map(({ yarn }) => yarn));
  return use.flatMap((yarn, index): Problem[] => {
    if (kept.has(yarn)) return [];
    const out = never.includes(yarn) || (only !== undefined && only !== "stash" && !only.includes(yarn));
    return out
      ? [{ where: `use[${index}]`, expected: "a yarn that may be used", got: JSON.stringify(yarn), severity: "fault" }]
      : [];
  });
}

/** What would have to be known of yarns for a wish to hold; they are allowed. */
function unknownOf({ together }: Wish, yarns: readonly Yarn[]): Problem[] {
  const told = (where: string, expected: string, unknown: readonly Yarn[]): Problem[] => {
    if (unknown.length === 0) return [];
    const names = unknown.slice(0, 3).map(({ name }) => name);
    const more = unknown.length > 3 ? ` and ${unknown.length - 3} more` : "";
    return [{ where, expected, got: `nothing for ${names.join(", ")}${more}; they are allowed`, severity: "doubt" }];
  };
  return [
    ...(together?.thickness
      ? told(
          "together.thickness",
          "metres per 100 g of every yarn",
          yarns.filter(({ metresPer100g }) => !metresPer100g),
        )
      : []),
    ...(together?.felting
      ? told(
          "together.felting",
          "a fibre, such as wool, superwash or cotton, of every yarn",
          yarns.filter((yarn) => feltingOf(yarn) === null),
        )
      : []),
  ];
}

/** The chart colours that each look is about: its own, or those that lie on the ground in its band. */
export function looksByColour(wish: Wish, pattern: Pattern): Map<string, string[]> {
  const looks = new Map<string, string[]>();
  const add = (colour: string, be: string): void => void looks.set(colour, [...(looks.get(colour) ?? []), be]);
  for (const { colour, band, be } of wish.look ?? []) {
    if (colour !== undefined) add(colour, be);
    if (band === undefined) continue;
    for (const chart of pattern.charts) {
      const grid = gridOf(chart);
      for (const found of findBands(chart, grid))
        if (found.id === band || found.name === band) for (const index of found.pattern) add(grid.ids[index]!, be);
    }
  }
  return looks;
}
