/** What the ranges of the ladder leave open, in words. */
import type { LadderRung } from "../worker/api.ts";

/** For one colour: between which L* it lies, of which classes it may be, and with what it may change places. */
export function rangeSentence(line: LadderRung, lines: readonly LadderRung[]): string {
  const now = Math.round(line.low) === Math.round(line.high) ? [] : [`L* likely ${spanWords(line)}`];
  const classes = line.mayBe.length > 1 ? [`of which class is open: ${line.mayBe.join(" or ")}`] : [];
  const was =
    Math.round(line.was.low) === Math.round(line.was.high) ? [] : [`the pattern’s likely ${spanWords(line.was)}`];
  const others = line.mayCross.map((other) => nameOf(lines, other));
  const order = others.length > 0 ? [`may change places with ${listed(others)}`] : [];
  const parts = [...now, ...classes, ...was, ...order];
  return parts.length === 0 ? "" : `${parts.join("; ")}.`;
}

/** For the whole ladder; "" where its order is settled. */
export function openSentence(lines: readonly LadderRung[]): string {
  const place = new Map(lines.map(({ colour }, at) => [colour, at]));
  const pairs = lines.flatMap(({ colour, mayCross }, at) =>
    mayCross
      .filter((other) => (place.get(other) ?? -1) > at)
      .map((other) => `${nameOf(lines, colour)} and ${nameOf(lines, other)}`),
  );
  if (pairs.length === 0) return "";
  const told = pairs.slice(0, NAMED);
  const rest = pairs.length - told.length;
  return `${told.join("; ")}${rest > 0 ? `; and ${rest} more ${rest === 1 ? "pair" : "pairs"}` : ""} may change places: their shades are not known well enough to tell.`;
}

/** Pairs that are named; the rest are counted. */
const NAMED = 2;

const spanWords = ({ low, high }: { readonly low: number; readonly high: number }): string =>
  `${Math.round(low)} to ${Math.round(high)}`;

function nameOf(lines: readonly LadderRung[], colour: string): string {
  const yarn = lines.find((line) => line.colour === colour)?.yarnName;
  return yarn ? `${yarn} (${colour})` : colour;
}

const listed = (names: readonly string[]): string =>
  names.length < 2 ? names.join("") : `${names.slice(0, -1).join(", ")} and ${names.at(-1)!}`;
