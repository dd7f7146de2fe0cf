/** Echoes that are none any more: a band that comes again dark on light where it was light on dark, though the pattern has both alike. */
import { valueLadder } from "../fabric/ladder.ts";
import type { BandMeasure } from "../fabric/measures.ts";
import { structureIn } from "../fabric/structure.ts";
import { valueSides } from "../fabric/valueSides.ts";
import { capital, rowsText, told, type AuditContext, type Judged } from "./context.ts";
import type { Finding } from "./finding.ts";
import { THRESHOLDS } from "./thresholds.ts";
import { crossingPairs, isFlipped } from "./valueOrder.ts";

export const echoes = (context: AuditContext): Finding[] => turnedEchoes(context).map(({ finding }) => finding);

/** A band that comes again on the other side of its ground, and the one that it is again. */
export interface TurnedEcho {
  readonly finding: Finding;
  readonly judged: Judged;
  readonly first: BandMeasure["band"];
  readonly again: BandMeasure["band"];
}

export function turnedEchoes(context: AuditContext): TurnedEcho[] {
  if (context.ladder === "free") return [];
  const rungs = valueLadder(context.pattern, context.yarns, context.colourway);
  const crossing = crossingPairs(rungs, isFlipped(rungs));
  // Colours that have changed sides all over the garment are told of as that.
  const isTold = ([one, other]: readonly string[]): boolean =>
    crossing.some((pair) => pair.some(({ colour }) => colour === one) && pair.some(({ colour }) => colour === other));
  return context.charts
    .filter(({ section }) => section === null)
    .flatMap((judged) => {
      const places = new Map(judged.now.bands.map(({ band }, index) => [band.id, index]));
      return structureIn(judged.now.cloth).bands.flatMap(({ band, echo }): TurnedEcho[] => {
        const [here, there] = [places.get(band.id), echo ? places.get(echo.of) : undefined];
        if (here === undefined || there === undefined) return [];
        const now = [there, here].map((at) => side(judged, "now", at));
        const was = [there, here].map((at) => side(judged, "was", at));
        // A band that is hardly told from its ground has no side, and is told of as what it is.
        if ([...now, ...was].some((deltaL) => deltaL === null || Math.abs(deltaL) < THRESHOLDS.oneValue)) return [];
        if (now[0]! * now[1]! > 0 || was[0]! * was[1]! < 0) return [];
        if ([there, here].some((at) => isTold(coloursOf(judged.now.bands[at]!, judged)))) return [];
        const [first, again] = [judged.now.bands[there]!, judged.now.bands[here]!];
        const finding = echoFinding(judged, [first, again], [now[0]!, now[1]!]);
        return [{ finding, judged, first: first.band, again: again.band }];
      });
    });
}

const side = (judged: Judged, which: "now" | "was", at: number): number | null =>
  valueSides(judged[which].cloth, judged[which].bands[at]!.band).deltaL;

/** Its ground and the colour that lies on it most. */
const coloursOf = ({ band }: BandMeasure, { now }: Judged): string[] =>
  [band.ground, ...band.pattern.slice(0, 1)].map((index) => now.cloth.grid.ids[index]!);

function echoFinding(
  judged: Judged,
  [first, again]: readonly [BandMeasure, BandMeasure],
  [deltaFirst, deltaAgain]: readonly [number, number],
): Finding {
  const { chart } = judged;
  const nameOf = ({ band }: BandMeasure): string => band.name ?? rowsText(band.rows);
  const words = (deltaL: number): string => (deltaL < 0 ? "dark on light" : "light on dark");
  return {
    id: `echo/${chart.id}/${first.band.rows.join("-")}/${again.band.rows.join("-")}`,
    severity: "note",
    where: { chart: chart.id, rows: again.band.rows, band: again.band.id, colours: coloursOf(again, judged) },
    numbers: { deltaL: deltaAgain, deltaLFirst: deltaFirst },
    headline: `${capital(nameOf(again))}: ${words(deltaAgain)}, and ${nameOf(first)} ${words(deltaFirst)}`,
    sentence:
      `They are the same motif, and in the pattern both lie on the same side of their ground; turned over, ${told(Math.abs(deltaAgain))} in L* ` +
      `instead of ${told(Math.abs(deltaFirst))} the other way, the second is hard to know again. It may be what you want.`,
  };
}
