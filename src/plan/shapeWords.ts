/** What shaping a garment comes to, in sentences that she can act on. */
import type { Gauge } from "../garment/gauge.ts";
import type { RoundChoice } from "../garment/roundChoices.ts";
import type { Height, ShapedPart, ShapeNote } from "../garment/shape/parts.ts";
import { decreaseWords } from "../garment/yoke.ts";
import type { YokePlan } from "../garment/yokePlan.ts";

/** "264 stitches, whole repeats: 3.3 cm less". */
export function choiceWords(choice: RoundChoice): string {
  const cost = costWords(choice.costCm);
  switch (choice.how) {
    case "as it is":
      return `${choice.stitches} stitches take every repeat as they are: ${cost}`;
    case "nearest":
      return `${choice.stitches} stitches: ${cost}`;
    case "whole repeats":
      return `${choice.stitches} stitches, whole repeats: ${cost}`;
    case "side panels":
      return `${choice.stitches} stitches between two side panels of ${choice.panel} (${cm(choice.panelCm)}): ${cost}`;
    case "another gauge":
      return `${choice.stitches} stitches, whole repeats at ${gaugeWords(choice.gauge)}: ${cost} around, ${cm(Math.abs(choice.heightCm))} ${choice.heightCm < 0 ? "lower" : "higher"}`;
    case "another repeat":
      return `${choice.stitches} stitches with ${choice.repeats.map(({ id, from, to }) => `${id} drawn over ${to} instead of ${from}`).join(", ")}: ${cost}`;
  }
}

/** Half a millimetre is nothing in knitting. */
const costWords = (costCm: number): string =>
  Math.abs(costCm) < 0.05 ? "as wide as wanted" : `${cm(Math.abs(costCm))} ${costCm < 0 ? "less" : "more"}`;

const cm = (value: number): string => `${value.toFixed(1)} cm`;
const gaugeWords = ({ stitches, rows }: Gauge): string => `${stitches.toFixed(1)} × ${rows.toFixed(1)} to 10 cm`;

/** Where a length ends in its chart; null for plain knitting. */
export function heightWords({ name, endsIn, whole }: Height): string | null {
  if (!endsIn) return null;
  const { row, of } = endsIn;
  if (row === of) return `${capital(name)}: ends with the chart's last row.`;
  const ways = whole.map(
    ({ rounds, costCm }) => `${rounds} rounds, ${cm(Math.abs(costCm))} ${costCm < 0 ? "less" : "more"}`,
  );
  const end = ways.length > 0 ? `; to end with its last row: ${ways.join(", or ")}` : "";
  return `${capital(name)}: ends in row ${row} of ${of}${end}.`;
}

/**
 * Where and in which rounds stitches go or come, and how many are left; null for a part without shaping. Decreases that are spread over the round
 * are a yoke's or a crown's: every so many stitches.
 */
export function shapingWords({ name, stitches, decreases }: ShapedPart): string | null {
  const last = decreases.at(-1);
  if (!last) return null;
  const rounds = new Map<string, number[]>();
  let before = stitches;
  for (const { round, to, at, atStart } of decreases) {
    const change = to < before ? "goes" : "comes";
    const spread = decreaseWords(before, to);
    const places = at
      ? at.map((place) => `a stitch ${change} on either side of the ${place}`)
      : atStart
        ? [
            `${Math.abs(to - before) / 2} ${Math.abs(to - before) === 2 ? "stitch" : "stitches"} ${change} at either end`,
          ]
        : [spread ?? `${Math.abs(to - before)} stitches ${change === "goes" ? "go" : "come"}`];
    for (const place of places) rounds.set(place, [...(rounds.get(place) ?? []), round]);
    before = to;
  }
  const lines = [...rounds].map(([place, list]) => `${place} in ${roundsText(list)}`);
  return `${capital(name)}, ${stitches} to ${last.to}: ${lines.join("; ")}.`;
}

/** "rounds 3, 5, 7 and 9"; a round named twice takes two. */
const roundsText = (rounds: readonly number[]): string =>
  rounds.length === 1 ? `round ${rounds[0]!}` : `rounds ${rounds.slice(0, -1).join(", ")} and ${rounds.at(-1)!}`;

/** The rounds of a yoke in which stitches go, one sentence each, counted from its first. */
export function yokeWords({ stitches, decreases, parts }: YokePlan): string[] {
  return decreases.map(({ round, to }, index) => {
    const from = index === 0 ? stitches : decreases[index - 1]!.to;
    const next = parts[index + 1]!;
    const words = decreaseWords(from, to) ?? `${from - to} stitches over several rounds`;
    const bands = next.bands.map(({ id, repeat, times }) => `${id} ${times} × ${repeat}`);
    return `Round ${round}: ${from} to ${to}, ${words}${bands.length > 0 ? `; above it ${bands.join(", ")}` : ""}.`;
  });
}

export function noteWords(note: ShapeNote): string {
  switch (note.kind) {
    case "steek":
      return `Steeks of ${note.stitches} stitches: ${note.names.join(", ")}. They are worked in both strands by turns, outside the repeats, and cut open. ${STEEK_CAUTION}`;
    case "back neck":
      return `A round yoke rides up at the throat: short rows lift the back of the neck by about ${cm(note.cm)}, before the neckband. They are not in the counts.`;
    case "arm widened":
      return `The sleeve has ${note.to} stitches at the upper arm instead of ${note.from}: an arm of ${cm(note.upperArmCm)} with its ease needs them.`;
    case "yoke deeper":
      return `The chart makes the yoke ${cm(note.cm)} deep instead of ${cm(note.wantedCm)}.`;
    case "in pattern":
      return `No plain round is near: stitches go within the pattern in ${note.rounds.length === 1 ? "round" : "rounds"} ${note.rounds.join(" and ")} of the yoke.`;
    case "columns run on":
      return `In the ${note.section} the chart is counted as running on over the stitches that go at its sides; keep each column above its own.`;
    case "opposite":
      return note.shows === "neither"
        ? `${capital(note.section)}: the back does not show what the front does.`
        : `${capital(note.section)}: an odd number of repeats, so that the back shows what lies half a repeat on from the front.`;
  }
}

/** Source: trade.md 3, steeks. */
export const STEEK_CAUTION =
  "Before you cut: wash the piece, and try it on the swatch. Superwash, cotton, silk, alpaca and slick yarns, and what is knitted in one strand, are sewn by machine first. Check twice that the column is the steek and that no layer lies beneath; a cut cannot be undone.";

const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);
