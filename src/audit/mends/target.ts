/** The place that a finding complains of: how near some yarns come to mending it, in numbers, and how it shows after a change. */
import type { Cloth, Ink } from "../../fabric/cloth.ts";
import { bandContrast, rowContrast, type Contrast, type Doubt, type SpectrumMemory } from "../../fabric/contrast.ts";
import { valueLadder } from "../../fabric/ladder.ts";
import type { BandMeasure } from "../../fabric/measures.ts";
import type { WordLimits } from "../../fabric/visibility.ts";
import { labOfYarn, uncertaintyOfYarn, type Yarn } from "../../yarn/yarn.ts";
import { told, type AuditContext, type Judged } from "../context.ts";
import type { Finding } from "../finding.ts";
import type { Case } from "../judge.ts";
import { enoughV } from "../legibility.ts";
import { THRESHOLDS } from "../thresholds.ts";
import { crossingPairs, isFlipped } from "../valueOrder.ts";
import { kindOf } from "./troubles.ts";

export interface Target {
  readonly finding: Finding;
  readonly kind: string;
  /** null for what is no matter of one chart: metres, the ladder. */
  readonly judged: Judged | null;
  /** Chart colours that may be changed to mend it. */
  readonly colours: readonly string[];
  /** The main reason why it is quick: from 1 on the place is probably mended by these yarns, below surely not. A few microseconds. */
  readonly reach: (yarns: ReadonlyMap<string, Yarn>) => number;
  /** The same for a cloth whose stitches lie otherwise. */
  readonly reachIn: (cloth: Cloth) => number;
}

/** @param memory what is known of spectra; looks at trials are not kept in it */
export function targetOf(finding: Finding, context: AuditContext, input: Case, memory: SpectrumMemory): Target {
  const kind = kindOf(finding);
  const { chart, section = null, colours = [] } = finding.where;
  const judged = context.charts.find((one) => one.chart.id === chart && one.section === section) ?? null;
  const looks: SpectrumMemory = { ...memory, looks: new Map() };
  const reachIn = (cloth: Cloth): number =>
    judged ? reachOf(finding, kind, judged, cloth, context, input.doubt, looks) : 1;
  const reach = (yarns: ReadonlyMap<string, Yarn>): number => {
    if (kind === "valueOrder") return orderReach(finding, context, yarns);
    return judged && SEEN.has(kind) ? reachIn(dressed(judged.now.cloth, yarns)) : 1;
  };
  return { finding, kind, judged, colours, reach, reachIn };
}

/** Findings about one place as it is seen. */
const SEEN = new Set(["legibility", "figure", "part", "want", "soft"]);

/**
 * A cloth with other yarns in some of its chart colours; what is laid on stays.
 * @param from the yarns that give way, by chart colour; whatever they are where missing
 */
export function dressed(
  cloth: Cloth,
  yarns: ReadonlyMap<string, Yarn>,
  from?: Readonly<Record<string, string>>,
): Cloth {
  return {
    ...cloth,
    inks: cloth.inks.map((ink) => {
      const yarn = ink.over || (from && ink.yarn !== from[ink.colour]) ? undefined : yarns.get(ink.colour);
      return yarn ? inkOf(ink, yarn) : ink;
    }),
  };
}

export const inkOf = (ink: Ink, yarn: Yarn): Ink => ({
  ...ink,
  yarn: yarn.id,
  lab: labOfYarn(yarn),
  uncertainty: uncertaintyOfYarn(yarn),
  flecks: yarn.flecks ?? [],
});

function reachOf(
  { where, numbers }: Finding,
  kind: string,
  judged: Judged,
  cloth: Cloth,
  { viewing, limits }: AuditContext,
  doubt: Doubt | undefined,
  memory: SpectrumMemory,
): number {
  if (kind === "legibility") {
    let least = Infinity;
    for (let row = where.rows[0]; row <= where.rows[1]; row++) {
      const at = judged.now.rows.findIndex((one) => one.row === row);
      const { want } = judged.now.bands[judged.now.rows[at]!.band]!.band;
      const was = judged.was.rows[at]!.contrast;
      least = Math.min(least, reachOfRow(rowContrast(cloth, row, viewing, memory, doubt), was, want, limits));
      if (least < 1) return least;
    }
    return least;
  }
  const index = judged.now.bands.findIndex(({ band }) => band.id === where.band);
  if (index < 0) return 1;
  const { band } = judged.now.bands[index]!;
  const contrast = bandContrast(cloth, band, viewing, memory, doubt);
  const was = judged.was.bands[index]!.contrast;
  if (kind === "want") return (contrast.V ?? 0) / enoughV(null, band.want, limits);
  if (kind === "soft")
    return Math.max(
      limits.strong / (contrast.V ?? 0),
      (was.V ?? 0) / ((contrast.V ?? 0) * THRESHOLDS.worseThanPattern),
    );
  const colours = where.colours ?? [];
  const figure = figureIn(contrast, colours);
  if (!figure) return 0;
  if (kind === "part") {
    // A part parts from its ground about as its figure does.
    const before = figureIn(judged.now.bands[index]!.contrast, colours)?.V ?? 0;
    return ((numbers.V as number) * figure.V) / before / limits.faint;
  }
  const before = figureIn(was, colours);
  const deltaL = Math.abs(figure.area.lab[0] - figure.against.lab[0]);
  return reachOfRow({ ...figure, deltaL }, before ?? { V: null, lightDark: null }, band.want, limits);
}

/** By how much it shows more than it must: as strongly, and by light and dark where the pattern has that. The limits are those of the finding. */
export function reachOfRow(
  { V, lightDark, deltaL }: Pick<Contrast, "V" | "lightDark" | "deltaL">,
  was: { readonly V: number | null; readonly lightDark: number | null },
  want: BandMeasure["band"]["want"],
  limits: WordLimits,
): number {
  if (V === null || lightDark === null || deltaL === null) return 0;
  const enough = enoughV(was.V, want, limits);
  const shows = enough === 0 ? Infinity : V / enough;
  if (shows < 1 || want === "soft" || was.lightDark === null || was.lightDark < limits.clear) return shows;
  const byLight = Math.max(
    deltaL / THRESHOLDS.oneValue,
    lightDark / (V < limits.strong ? limits.clear : limits.faint),
    lightDark / (was.lightDark * THRESHOLDS.worseThanPattern),
  );
  return Math.min(shows, byLight);
}

/** The figure of two areas that hold these chart colours, whatever their yarns are. */
const figureIn = ({ figures }: Contrast, colours: readonly string[]): Contrast["figures"][number] | undefined =>
  figures.find(({ area, against }) =>
    [area, against].every((one) => one.colours.some((colour) => colours.includes(colour))),
  );

/** 1 where the finding's pairs lie in the pattern's order again, else 0. */
function orderReach(
  { id }: Finding,
  { pattern, yarns: owned, colourway }: AuditContext,
  yarns: ReadonlyMap<string, Yarn>,
): number {
  const changed = Object.fromEntries([...yarns].map(([colour, yarn]) => [colour, yarn.id]));
  const rungs = valueLadder(pattern, owned, { ...colourway, yarns: { ...colourway.yarns, ...changed } });
  const pairs = id.slice(id.indexOf("/") + 1).split("+");
  const crossing = crossingPairs(rungs, isFlipped(rungs));
  return crossing.some(([one, other]) => pairs.includes(`${one.colour}-${other.colour}`)) ? 0 : 1;
}

export interface ShownNow {
  readonly V: number | null;
  readonly lightDark: number;
  /** "" where there is nothing to see any more: knitted in one yarn. */
  readonly text: string;
}

/** What a finding's place comes to after a change: the V of its weakest row, or of its figure, with its word, or a colour's visual weight. */
export function shownIn({ finding, kind }: Pick<Target, "finding" | "kind">, context: AuditContext): ShownNow | null {
  const { chart, rows, band, colours = [], section = null } = finding.where;
  const uses = context.charts.filter((one) => one.chart.id === chart);
  // A section that has no changes of its own any more is like every other use.
  const judged = uses.find((one) => one.section === section) ?? uses[0];
  if (!judged) return null;
  switch (kind) {
    case "legibility": {
      const contrasts = judged.now.rows.filter(({ row }) => row >= rows[0] && row <= rows[1]);
      const weakest = contrasts.toSorted((a, b) => (a.contrast.V ?? 0) - (b.contrast.V ?? 0))[0]?.contrast;
      return contrastSeen(weakest);
    }
    case "figure":
      return seen(figureIn(bandIn(judged, band), colours));
    case "want":
    case "soft": {
      return contrastSeen(bandIn(judged, band));
    }
    case "part": {
      const parts = [...judged.parts].find(([index]) => judged.now.bands[index]!.band.id === band)?.[1].now ?? [];
      const part = parts.find(
        (one) =>
          one.rows[0] >= rows[0] &&
          one.rows[1] <= rows[1] &&
          [one.area, one.against].every((area) => area.colours.some((colour) => colours.includes(colour))),
      );
      // Where its figure is about as strong as the pattern's, nobody asks after the part.
      return part ? seen(part) : null;
    }
    case "visualWeight": {
      const weight = judged.now.weights
        .filter(({ ink }) => judged.now.cloth.inks[ink]!.colour === colours[0])
        .reduce((sum, { share }) => sum + share, 0);
      return {
        V: null,
        lightDark: 0,
        text: `about ${percent(weight)} % of what draws the eye instead of ${percent(finding.numbers.share as number)} %`,
      };
    }
    default:
      return null;
  }

  function contrastSeen(contrast: Contrast | undefined): ShownNow {
    const { V = null, lightDark = null, shows = null } = contrast ?? {};
    return seen(V === null || lightDark === null || shows === null ? undefined : { V, lightDark, shows });
  }

  function seen(shown: Pick<Contrast["figures"][number], "V" | "lightDark" | "shows"> | undefined): ShownNow {
    if (!shown) return { V: 0, lightDark: 0, text: "" };
    const { V } = finding.numbers;
    const before = typeof V === "number" ? ` instead of ${told(V)}` : "";
    return { V: shown.V, lightDark: shown.lightDark, text: `${shown.shows}, V ${told(shown.V)}${before}` };
  }
}

const bandIn = ({ now }: Judged, id: string | undefined): Contrast =>
  now.bands.find(({ band }) => band.id === id)!.contrast;

const percent = (share: number): number => Math.round(share * 100);
