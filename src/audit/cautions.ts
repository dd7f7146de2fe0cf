/** Cautions: what may go wrong with the wool itself, in the wash, on the skin or in the knitting, and what to try first; never a promise. */
import { lchFromLab } from "../colour/lab.ts";
import type { Colourway } from "../fabric/colourway.ts";
import { felts, hasHair } from "../yarn/fibre.ts";
import { hasShade } from "../yarn/stash.ts";
import { DEFAULT_UNCERTAINTY, labOfYarn, type Yarn } from "../yarn/yarn.ts";
import { shortList } from "./context.ts";

export type CautionKind = "bleeding" | "felting" | "thickness" | "lots" | "skin" | "shade";

export interface Caution {
  readonly kind: CautionKind;
  /** "unknown": nobody has said what would be needed to tell, which is not the same as safe. */
  readonly about: "risk" | "unknown";
  /** Ids of the yarns that it is about. */
  readonly yarns: readonly string[];
  /** What may happen, or what is not known. */
  readonly sentence: string;
  /** A test, or what is best done. */
  readonly advice: string;
}

/** The cautions for what a colourway is knitted and sewn in. */
export function cautionsOf({
  yarns,
  colourway,
}: {
  readonly yarns: readonly Yarn[];
  readonly colourway: Colourway;
}): Caution[] {
  const used = new Set([
    ...Object.values(colourway.yarns),
    ...(colourway.changes ?? []).map(({ yarn }) => yarn),
    ...(colourway.overStitched ?? []).map(({ yarn }) => yarn),
  ]);
  return cautionsTogether(yarns.filter(({ id }) => used.has(id)));
}

/** The cautions for yarns that come into one piece, whatever they are used for. */
export function cautionsTogether(yarns: readonly Yarn[]): Caution[] {
  return [bleeding, felting, thickness, lots, skin, shade].flatMap((caution) => caution(yarns));
}

/** What is to be said of one yarn by itself, before anything lies beside it. */
export function cautionsOfYarn(yarn: Yarn): Caution[] {
  const alone: Caution[] = mayBleed(yarn)
    ? [
        {
          kind: "bleeding",
          about: "risk",
          yarns: [yarn.id],
          sentence: `${nameOf(yarn)} may bleed into light yarns: ${strongWords(yarn)}.`,
          advice: BLEEDING_ADVICE,
        },
      ]
    : [];
  return [...alone, ...lots([yarn]), ...skin([yarn]), ...shade([yarn])];
}

/** L* above which a stain shows. Source: trade.md 4, fastness (common practice). */
const PALE = 75;

/** L* below which a yarn counts as dark: the dark value class. Source: trade.md 4 (common practice). */
const DARK = 35;

/**
 * Hue angles and least chroma of CIELAB that stand for "saturated red, blue and turquoise". Source of the words: trade.md 4,
 * fastness (common practice); the numbers are our choice.
 */
const RED = { from: 345, to: 45, chroma: 40 };
const BLUE = { from: 180, to: 310, chroma: 25 };

/** Source: trade.md 4, fastness: a home test by trade usage, washing by common practice. A quick rub has passed a yarn that later bled. */
const BLEEDING_ADVICE =
  "Twist 25–30 cm of each strong colour with a white strand, soak half an hour in a white dish of warm water with your wool wash, let it dry and untwist: if the white has stayed white, go on. A quick wet rub does not tell. Wash the piece cold and short with a colour-catching sheet, and dry it at once.";

function bleeding(yarns: readonly Yarn[]): Caution[] {
  const pale = yarns.filter((yarn) => hasShade(yarn) && labOfYarn(yarn)[0] > PALE);
  const strong = yarns.filter((yarn) => mayBleed(yarn) && pale.some((other) => other !== yarn));
  const unknown = yarns.filter((yarn) => !hasShade(yarn));
  const treated = strong.filter(({ superwash }) => superwash === true);
  return [
    ...(strong.length === 0
      ? []
      : [
          {
            kind: "bleeding",
            about: "risk",
            yarns: [...new Set([...strong, ...pale].map(({ id }) => id))],
            sentence: `${names(strong)} may bleed into ${names(pale)}.${treated.length > 0 ? " Superwash keeps a yarn from felting, not from bleeding." : ""}`,
            advice: BLEEDING_ADVICE,
          } as const,
        ]),
    ...(unknown.length === 0 || yarns.length < 2
      ? []
      : [
          {
            kind: "bleeding",
            about: "unknown",
            yarns: unknown.map(({ id }) => id),
            sentence: `Whether ${names(unknown)} may bleed or be stained is not known: nobody has said how dark ${unknown.length === 1 ? "it is" : "they are"}.`,
            advice: BLEEDING_ADVICE,
          } as const,
        ]),
  ];
}

/** Dark yarns, saturated reds, blues and turquoises, and what was dyed by hand. Source: trade.md 4, fastness (common practice). */
function mayBleed(yarn: Yarn): boolean {
  if (yarn.handDyed === true) return true;
  if (!hasShade(yarn)) return false;
  const [lightness, chroma, hueDegrees] = lchFromLab(labOfYarn(yarn));
  if (lightness < DARK) return true;
  const red = (hueDegrees >= RED.from || hueDegrees <= RED.to) && chroma >= RED.chroma;
  const blue = hueDegrees >= BLUE.from && hueDegrees <= BLUE.to && chroma >= BLUE.chroma;
  return lightness <= PALE && (red || blue);
}

const strongWords = (yarn: Yarn): string =>
  yarn.handDyed === true ? "it was dyed by hand" : labOfYarn(yarn)[0] < DARK ? "it is dark" : "its colour is saturated";

/** Source: trade.md 2 (common practice). */
function felting(yarns: readonly Yarn[]): Caution[] {
  const [yes, no, unknown] = (["yes", "no", "unknown"] as const).map((told) =>
    yarns.filter((yarn) => felts(yarn) === told),
  ) as [Yarn[], Yarn[], Yarn[]];
  const advice = "Knit a swatch with all of them and wash it exactly as the garment will be washed.";
  if (yes.length > 0 && no.length > 0)
    return [
      {
        kind: "felting",
        about: "risk",
        yarns: [...yes, ...no].map(({ id }) => id),
        sentence: `${names(yes)} ${yes.length === 1 ? "felts" : "felt"}, ${names(no)} ${no.length === 1 ? "does" : "do"} not: in a warm wash they may shrink apart.`,
        advice,
      },
    ];
  // Where nothing is said of any of them they are most likely of one kind, and asking would be nagging.
  if (unknown.length === 0 || yes.length + no.length === 0) return [];
  const others = yes.length > 0 ? yes : no;
  return [
    {
      kind: "felting",
      about: "unknown",
      yarns: unknown.map(({ id }) => id),
      sentence: `Whether ${names(unknown)} ${unknown.length === 1 ? "felts" : "felt"} is not known; ${names(others)} ${others.length === 1 ? "does" : "do"}${yes.length > 0 ? "" : " not"}. Superwash beside wool that felts may shrink apart.`,
      advice,
    },
  ];
}

/** Metres per 100 g within which yarns go together in one piece, as a part of the middle one. Source: trade.md 2 (common practice: ±10–15 %). */
const ONE_THICKNESS = { near: 0.1, far: 0.15 };

function thickness(yarns: readonly Yarn[]): Caution[] {
  if (yarns.length < 2) return [];
  const known = yarns.filter(({ metresPer100g }) => metresPer100g !== undefined);
  const unknown = yarns.filter(({ metresPer100g }) => metresPer100g === undefined);
  const middle = median(known.map(({ metresPer100g }) => metresPer100g!));
  const off = known
    .map((yarn) => ({ yarn, by: yarn.metresPer100g! / middle - 1 }))
    .filter(({ by }) => Math.abs(by) > ONE_THICKNESS.near + ROUNDING);
  const most = Math.max(...off.map(({ by }) => Math.abs(by)));
  const told = off.map(
    ({ yarn, by }) =>
      `${nameOf(yarn)} (${Math.round(yarn.metresPer100g!)} m, ${Math.round(100 * Math.abs(by))} % ${by > 0 ? "thinner" : "thicker"})`,
  );
  return [
    ...(off.length === 0
      ? []
      : [
          {
            kind: "thickness",
            about: "risk",
            yarns: off.map(({ yarn }) => yarn.id),
            sentence: `Beside ${Math.round(middle)} m in 100 g, the middle of these yarns, ${shortList(told)}: ${
              most > ONE_THICKNESS.far + ROUNDING
                ? "more than the 10–15 % within which yarns usually go together"
                : "at the edge of the 10–15 % within which yarns usually go together"
            }.`,
            advice: "Knit a swatch with all of them: gauge and amounts go by thickness.",
          } as const,
        ]),
    ...(unknown.length === 0
      ? []
      : [
          {
            kind: "thickness",
            about: "unknown",
            yarns: unknown.map(({ id }) => id),
            sentence: `How thick ${names(unknown)} ${unknown.length === 1 ? "is" : "are"} is not known.`,
            advice: "Look for metres and grams on the band, or weigh a length that you have measured.",
          } as const,
        ]),
  ];
}

/** A ratio of two whole numbers of metres is not told finer. */
const ROUNDING = 1e-9;

function median(values: readonly number[]): number {
  const sorted = values.toSorted((one, other) => one - other);
  const half = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[half]! : (sorted[half - 1]! + sorted[half]!) / 2;
}

/** Source: trade.md 4, failures 9 and dye lots (common practice). */
function lots(yarns: readonly Yarn[]): Caution[] {
  const groups = new Map<string, Yarn[]>();
  for (const yarn of yarns) {
    const key = JSON.stringify([yarn.maker ?? "", yarn.name || yarn.id].map((word) => word.trim().toLowerCase()));
    groups.set(key, [...(groups.get(key) ?? []), yarn]);
  }
  return [...groups.values()].flatMap((group): Caution[] => {
    const balls = group.flatMap((yarn) => yarn.lots ?? []);
    const printed = balls.map(({ lot }) => lot?.trim() ?? "");
    const different = [...new Set(printed.filter((lot) => lot !== ""))];
    const unprinted = printed.some((lot) => lot === "");
    const ids = group.map(({ id }) => id);
    if (different.length > 1)
      return [
        {
          kind: "lots",
          about: "risk",
          yarns: ids,
          sentence: `${nameOf(group[0]!)} is of several dye lots (${shortList(different)}): where one ends and the next begins it may show as a line.`,
          advice:
            "Knit two rounds of each in turn where they meet, or keep the odd lot for ribs and cuffs. Lay them side by side in daylight first.",
        },
      ];
    return balls.length > 1 && unprinted
      ? [
          {
            kind: "lots",
            about: "unknown",
            yarns: ids,
            sentence: `Whether all of ${nameOf(group[0]!)} is of one dye lot is not known.`,
            advice: "Look at the bands; without them lay the balls side by side in daylight.",
          },
        ]
      : [];
  });
}

/** Source: trade.md 4, skin: Zallmann et al. 2017, Acta Derm. Venereol. 97: 906–915: irritation by coarse fibres, no evidence of an allergy. */
function skin(yarns: readonly Yarn[]): Caution[] {
  const hair = yarns.filter((yarn) => hasHair(yarn) === "yes");
  const unknown = yarns.filter((yarn) => hasHair(yarn) === "unknown");
  const advice = "Ask whoever will wear it, and note what each yarn is made of: one coarse colour is enough.";
  if (hair.length > 0)
    return [
      {
        kind: "skin",
        about: "risk",
        yarns: hair.map(({ id }) => id),
        sentence: `${hair.length === yarns.length && hair.length > 1 ? "Wool and other hair, as in all of these yarns," : names(hair)} may irritate the skin, most at neck and cuffs.`,
        advice,
      },
    ];
  return unknown.length === 0
    ? []
    : [
        {
          kind: "skin",
          about: "unknown",
          yarns: unknown.map(({ id }) => id),
          sentence: `What ${names(unknown)} ${unknown.length === 1 ? "is" : "are"} made of is not known; wool may irritate the skin.`,
          advice,
        },
      ];
}

function shade(yarns: readonly Yarn[]): Caution[] {
  const guessed = yarns.filter(({ shade: stated }) => stated?.from === "eye" || stated?.from === "picture");
  const unsaid = yarns.filter(
    (yarn) => hasShade(yarn) && yarn.shade?.from === undefined && yarn.shade?.uncertainty === undefined,
  );
  return [
    ...(guessed.length === 0
      ? []
      : [
          {
            kind: "shade",
            about: "risk",
            yarns: guessed.map(({ id }) => id),
            sentence: `The shade of ${names(guessed)} is known by eye or from a picture only.`,
            advice: SHADE_ADVICE,
          } as const,
        ]),
    ...(unsaid.length === 0
      ? []
      : [
          {
            kind: "shade",
            about: "unknown",
            yarns: unsaid.map(({ id }) => id),
            sentence: `How the shade of ${names(unsaid)} is known nobody has said; it is taken to be within ${DEFAULT_UNCERTAINTY} ΔE00.`,
            advice: SHADE_ADVICE,
          } as const,
        ]),
  ];
}

const SHADE_ADVICE =
  "Judge the wool in daylight, two strands twisted round a finger; a photograph with a colour chart or a grey card tells more.";

const nameOf = ({ name, id }: Yarn): string => name || id;
const names = (yarns: readonly Yarn[]): string => shortList(yarns.map(nameOf));
