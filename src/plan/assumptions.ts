/** What an estimate of yarn takes for granted, said in sentences that she can check. */
import type { Pattern } from "../fabric/pattern.ts";
import type { Knitting } from "./knitting.ts";
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
    settings.measuredLoopMm === null
      ? `One stitch takes about ${loop.toFixed(1)} mm of yarn at ${pattern.gauge.stitches} stitches and ${pattern.gauge.rows} rows to 10 cm (soaked and dried flat); measured stitches of your own swatch are better.`
      : `One stitch takes ${loop.toFixed(1)} mm of yarn, as you measured it.`,
    `Floats lie with ${percent(settings.slack)} slack; between none and 20 % is usual.`,
    `Each start and stop of a yarn costs ${Math.round(settings.tailsM * 100)} cm of tails; a yarn that rests for more than ${settings.restRounds} rounds is cut.`,
  );
  if (settings.castOnRows === 0 && settings.castOffRows === 0) {
    const stitches = knitting.sections[0]?.rounds[0]?.columns.length ?? 0;
    const metres = ((2 * stitches * loop) / 1000).toFixed(1);
    said.push(
      `Ribs, cast-on, cast-off, steeks and the swatch are not counted${stitches > 0 ? `; a cast-on of ${stitches} stitches takes about ${metres} m` : ""}.`,
    );
  } else said.push("Cast-on and cast-off are counted; ribs, steeks and the swatch are not.");
  said.push(`The reserve of ${percent(settings.reserve)} comes on top; a discontinued lot asks for 15 to 20 %.`);
  return said;
}
