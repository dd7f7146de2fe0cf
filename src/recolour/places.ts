/** The places of a search: chart colours, and rows that she has pinned to a yarn; what a colourway does by place, without its yarns. */
import type { Mend } from "../audit/finding.ts";
import { floats } from "../audit/floats.ts";
import { contextOf } from "../audit/judge.ts";
import type { Judged } from "../audit/context.ts";
import type { Lab } from "../colour/lab.ts";
import { labOfShade } from "../colour/shade.ts";
import type { Colourway } from "../fabric/colourway.ts";
import { stitchesOf } from "../fabric/measures.ts";
import type { Pattern } from "../fabric/pattern.ts";
import type { Place } from "../garment/place.ts";
import { labOfYarn, type Yarn } from "../yarn/yarn.ts";
import { inOwnColours } from "./dress.ts";
import type { SearchInput } from "./prepare.ts";
import type { Target } from "./score.ts";
import { looksByColour } from "./wish.ts";

/** Rows that keep a yarn of their own. `id` stands for the yarn in the structure, as a chart colour's id stands for its. */
export interface Pin {
  readonly id: string;
  readonly colour: string;
  readonly at: Place;
  readonly yarn: string;
}

export interface Structure {
  /** The colourway's places, each chart colour in a yarn that bears its own name. */
  readonly structure: Colourway;
  /** These yarns. */
  readonly own: readonly Yarn[];
  /** Floats that are laid on in duplicate stitch instead, in the structure's own names. */
  readonly laid: readonly Mend[];
  readonly pins: readonly Pin[];
  readonly charts: readonly Judged[];
}

/** The colourway's places without its yarns; floats that can be laid on in duplicate stitch are. */
export function structureOf({ colourway, wish, viewing, doubt, memory }: SearchInput, pattern: Pattern): Structure {
  const ids = pattern.colours.map(({ id }) => id);
  const pins = (wish.keep ?? []).flatMap(({ colour, yarn, at }, index): Pin[] =>
    at ? [{ id: `${colour} pinned ${index}`, colour, at, yarn }] : [],
  );
  const own = [
    ...pattern.colours.map(({ id, name, shade }) => ({ id, name: name ?? id, shade })),
    ...pins.map(({ id, colour }) => ({
      id,
      name: id,
      shade: pattern.colours.find((one) => one.id === colour)!.shade,
    })),
  ];
  const bare = inOwnColours(colourway, pattern.charts, ids);
  const plain: Colourway = {
    ...bare,
    changes: [...(bare.changes ?? []), ...pins.map(({ id, colour, at }) => ({ at, colour, yarn: id }))],
  };
  const judge = (structure: Colourway) =>
    contextOf({ pattern, yarns: own, colourway: structure, viewing, doubt }, memory);
  const laid = floats(judge(plain)).flatMap(({ mends }) => mends ?? []);
  const structure: Colourway = {
    ...plain,
    changes: [...(plain.changes ?? []), ...laid.map(({ at, colour, to }) => ({ at: at!, colour, yarn: to! }))],
    overStitched: [...(plain.overStitched ?? []), ...laid.flatMap(({ overStitched }) => overStitched ?? [])],
  };
  return { structure, own, laid, pins, charts: judge(structure).charts };
}

/** Chart colours that are knitted somewhere, then the pins; `ids` are the yarns that stand for them in the structure. */
export function targetsOf(
  { wish, yarns }: SearchInput,
  pattern: Pattern,
  { charts, pins }: Structure,
): { targets: Target[]; ids: string[]; colours: string[] } {
  const areas = areasByYarn(charts);
  const colours = pattern.colours.map(({ id }) => id).filter((id) => areas.has(id));
  const looks = looksByColour(wish, pattern);
  const lightnesses = colours.map((id) => wasOf(pattern, id)[0]);
  const turn = Math.max(...lightnesses) + Math.min(...lightnesses);
  const labOf = (id: string | undefined): Lab | null => {
    const yarn = yarns.find((one) => one.id === id);
    return yarn ? labOfYarn(yarn) : null;
  };
  const targetOf = (colour: string, id: string, kept: string | undefined): Target => {
    const was = wasOf(pattern, colour);
    return {
      colour,
      was,
      lightness: wish.ladder === "reversed" ? turn - was[0] : was[0],
      area: areas.get(id) ?? 0,
      looks: looks.get(colour) ?? [],
      fixed: labOf(kept),
      pinned: colour !== id,
    };
  };
  const keptYarn = (colour: string): string | undefined =>
    wish.keep?.find((kept) => kept.colour === colour && !kept.at)?.yarn;
  return {
    targets: [
      ...colours.map((colour) => targetOf(colour, colour, keptYarn(colour))),
      ...pins.map(({ id, colour, yarn }) => targetOf(colour, id, yarn)),
    ],
    ids: [...colours, ...pins.map(({ id }) => id)],
    colours,
  };
}

const wasOf = (pattern: Pattern, id: string): Lab =>
  labOfShade(pattern.colours.find((colour) => colour.id === id)!.shade);

/** Part of the stitches that lie in each of the structure's yarns; 0 for a chart colour that is only knitted in another's. */
function areasByYarn(charts: readonly Judged[]): Map<string, number> {
  const areas = new Map<string, number>();
  let all = 0;
  for (const { now } of charts) {
    const stitches = stitchesOf(now.cloth, 1, now.cloth.grid.height);
    stitches.forEach((count, ink) => {
      const { yarn, colour } = now.cloth.inks[ink]!;
      const seen = yarn ?? colour;
      areas.set(seen, (areas.get(seen) ?? 0) + count);
      if (!areas.has(colour)) areas.set(colour, 0);
      all += count;
    });
  }
  for (const [colour, count] of areas) areas.set(colour, count / all);
  return areas;
}
