/** What an estimate of yarn takes for granted, said in sentences that she can check. */
import type { Pattern } from "../fabric/pattern.ts";
import { saysFrom, type Knitting } from "./knitting.ts";
import type { AmountSettings } from "./settings.ts";
import { loopMm } from "./tally.ts";

export function assumptionsOf(pattern: Pattern, knitting: Knitting, settings: AmountSettings): string[] {
  const loop = loopMm(pattern.gauge, settings);
  const percent = (part: number): string => `${Math.round(part * 100)} %`;
  const said: string[] = [];
  if (knitting.size === null) {
    said.push("The pattern has no sections, so this is one use of each chart, not a garment.");
  }
  said.push(
    settings.measured === null
      ? `One stitch takes about ${loop.toFixed(1)} mm of yarn at ${pattern.gauge.stitches} stitches and ${pattern.gauge.rows} rows to 10 cm (soaked and dried flat); measured stitches of your own swatch are better.`
      : `One stitch takes ${loop.toFixed(1)} mm of yarn, as you measured it, within ${(settings.measured.within * 100).toFixed(1)} %.`,
    `Floats lie with ${percent(settings.slack)} slack; between none and 20 % is usual.`,
    `Each start and stop of a yarn costs ${Math.round(settings.tailsM * 100)} cm of tails; a yarn that rests for more than ${settings.restRounds} rounds is cut.`,
  );
  said.push(whatIsCounted(pattern, knitting, settings));
  said.push(`The reserve of ${percent(settings.reserve)} comes on top; a discontinued lot asks for 15 to 20 %.`);
  return said;
}

/** What is in the metres beside the rounds themselves, and what is not. */
function whatIsCounted({ sections = [] }: Pattern, knitting: Knitting, settings: AmountSettings): string {
  const isShaped = saysFrom(sections);
  const edges = settings.castOnRows > 0 || settings.castOffRows > 0;
  const steeks = knitting.sections.some(({ hasSteek }) => hasSteek);
  const parts: [string, boolean | null][] = [
    // A shaped garment has its ribs as sections, and steeks only where it needs them.
    ["ribs", isShaped ? null : false],
    ["cast-on", edges],
    ["cast-off", edges],
    ["steeks", steeks ? true : isShaped ? null : false],
    ["the swatch", settings.swatch !== null],
  ];
  const wordsOf = (isCounted: boolean): string[] => parts.filter((part) => part[1] === isCounted).map(([word]) => word);
  const [counted, missing] = [wordsOf(true), wordsOf(false)];
  const are = ({ length }: readonly string[]): string => (length === 1 ? "is" : "are");
  if (counted.length === 0) {
    const stitches = knitting.sections[0]?.castOn ?? 0;
    const metres = (
      (2 * stitches * loopMm(knitting.sections[0]?.gauge ?? { stitches: 1, rows: 1 }, settings)) /
      1000
    ).toFixed(1);
    return `${capital(listed(missing))} ${are(missing)} not counted${stitches > 0 ? `; a cast-on of ${stitches} stitches takes about ${metres} m` : ""}.`;
  }
  const left = missing.length === 0 ? "" : `; ${listed(missing)} ${are(missing)} not`;
  return `${capital(listed(counted))} ${are(counted)} counted${left}.${isShaped ? " A rib counts as plain knitting." : ""}`;
}

const listed = (words: readonly string[]): string =>
  words.length < 2 ? words.join("") : `${words.slice(0, -1).join(", ")} and ${words.at(-1)}`;

const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);
