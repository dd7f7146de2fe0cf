/** What swatches of the worked example come to, beside knitting the whole repeat, and how long it takes to plan them; nothing is judged here. */
import { vest } from "../test/simulatedKnitter.ts";
import { swatchOfProject } from "../src/jobs/swatch.ts";

for (const { id, name } of vest.colourways)
  for (const [budget, words] of [
    [undefined, "every doubt"],
    [{ stitches: 900 }, "900 stitches"],
    [{ minutes: 30 }, "30 minutes"],
  ] as const) {
    const start = process.cpuUsage();
    const swatch = swatchOfProject(vest, { colourway: id, budget });
    const { user } = process.cpuUsage(start);
    const { stitches, wholeRepeat, covers, leaves, proven, threshold, minutes } = swatch;
    const seen = covers.filter(({ by }) => by === "seen").length;
    console.log(
      `${id} ${name}, ${words}: ${stitches} stitches of ${wholeRepeat.stitches}, ${((100 * stitches) / wholeRepeat.stitches).toFixed(1)} %, ` +
        `${covers.length} of ${covers.length + leaves.length} doubts settled (${seen} seen), ${Math.round(minutes)} minutes, ` +
        `threshold to a factor of ${threshold.now.toFixed(1)} → ${threshold.after.toFixed(2)}, ${proven ? "proven" : "not proven"}, ${(user / 1000).toFixed(0)} ms of work`,
    );
  }
