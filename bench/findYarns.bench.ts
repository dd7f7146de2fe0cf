/** Yarns found in painted photographs: how many, what besides, how long it takes. Seeds from 2001 are kept for this. */
import { findYarns } from "../src/intake/yarnPhoto/findYarns.ts";
import { paintTable } from "../test/intake/tablePainter.ts";
import { scoreTable, tableRaster } from "../test/intake/tableScore.ts";

const FIRST = 2001;
const PHOTOS = 60;

const sum = { yarns: 0, found: 0, wrong: 0, parts: 0, whole: 0 };
const purity: number[] = [];
const times: number[] = [];
const layouts = new Map<string, [found: number, yarns: number]>();
for (let seed = FIRST; seed < FIRST + PHOTOS; seed++) {
  const painted = paintTable(seed);
  const picture = tableRaster(painted);
  const avoid = painted.known.map(([x, y, width, height]) => ({ x: x!, y: y!, width: width!, height: height! }));
  const start = performance.now();
  const found = findYarns(picture, { avoid }).value!;
  times.push(performance.now() - start);
  const score = scoreTable(painted, found);
  sum.yarns += score.yarns;
  sum.found += score.found;
  sum.wrong += score.wrong;
  sum.parts += score.parts;
  sum.whole += score.found === score.yarns && score.wrong + score.parts === 0 ? 1 : 0;
  purity.push(...score.purity);
  for (const key of [painted.story.layout, `on ${painted.story.ground}`]) {
    const [have, all] = layouts.get(key) ?? [0, 0];
    layouts.set(key, [have + score.found, all + score.yarns]);
  }
}
const middle = (list: readonly number[]): number => list.toSorted((a, b) => a - b)[Math.floor(list.length / 2)]!;
const percent = (part: number): string => `${(100 * part).toFixed(1)} %`;
console.log(`${sum.found} of ${sum.yarns} yarns found (${percent(sum.found / sum.yarns)}) in ${PHOTOS} photographs`);
console.log(
  `wrong outlines ${(sum.wrong / PHOTOS).toFixed(2)} a photograph, parts of a yarn ${(sum.parts / PHOTOS).toFixed(2)}`,
);
console.log(
  `nothing to correct in ${sum.whole}; inner box at least 95 % yarn: ${percent(purity.filter((part) => part >= 0.95).length / purity.length)}`,
);
console.log(`median ${middle(times).toFixed(0)} ms`);
for (const [key, [have, all]] of [...layouts].sort()) console.log(`  ${key}: ${have} of ${all}`);
