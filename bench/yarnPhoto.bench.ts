/** How true photographed shades are, by kind of reference, on painted photographs: differences, and how often the range held the truth. */
import sharp from "sharp";
import { deltaE2000 } from "../src/colour/difference.ts";
import { CHART_LABS } from "../src/intake/yarnPhoto/chart24.ts";
import { readYarnPhoto, type PhotoReference } from "../src/intake/yarnPhoto.ts";
import { rasterFromBytes } from "../src/raster/raster.ts";
import { paintYarnPhoto } from "../test/intake/yarnPainter.ts";

const PHOTOS = Number(process.env.PHOTOS ?? 60);
const boxOf = ([x, y, width, height]: readonly number[]) => ({ x: x!, y: y!, width: width!, height: height! });
const results = new Map<string, { error: number; range: number }[]>();
let found = 0;
let refused = 0;
for (let seed = 1; seed <= PHOTOS; seed++) {
  const photo = paintYarnPhoto(seed, CHART_LABS);
  const { data } = await sharp(
    await sharp(photo.rgb, { raw: { width: photo.width, height: photo.height, channels: 3 } })
      .jpeg({ quality: [60, 80, 92][seed % 3]! })
      .toBuffer(),
  )
    .ensureAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true });
  const raster = rasterFromBytes(photo.width, photo.height, data);
  const corners = [0, 2, 4, 6].map((at) => [photo.corners[at]!, photo.corners[at + 1]!] as const);
  const bare = { ...raster, data: raster.data.slice() };
  const mean = [0.3, 0.25, 0.2];
  for (let y = 20; y < 205; y++) for (let x = 20; x < 300; x++) bare.data.set(mean, (y * photo.width + x) * 3);
  const cases: [string, PhotoReference][] = [
    ["24 patches", { kind: "patches", corners }],
    ["grey card", { kind: "grey", area: boxOf(photo.grey) }],
    ["white paper", { kind: "white", area: boxOf(photo.white) }],
    ["none", { kind: "find" }],
  ];
  if (seed % 5 === 0) {
    const { value } = readYarnPhoto(raster, { yarns: [boxOf(photo.yarns[0]!.box)], reference: { kind: "find" } });
    if (value?.reference.kind === "patches") found++;
  }
  for (const [name, reference] of cases) {
    const { value } = readYarnPhoto(name === "none" ? bare : raster, {
      yarns: photo.yarns.map(({ box }) => boxOf(box)),
      reference,
    });
    value?.yarns.forEach(({ lab, uncertainty }, at) => {
      if (!lab || uncertainty === null) refused++;
      else
        results.set(name, [
          ...(results.get(name) ?? []),
          { error: deltaE2000(lab, photo.yarns[at]!.lab), range: uncertainty },
        ]);
    });
    if (!value) refused += photo.yarns.length;
  }
}
for (const [name, list] of results) {
  const errors = list.map(({ error }) => error).sort((a, b) => a - b);
  const part = (share: number): string => errors[Math.floor(share * (errors.length - 1))]!.toFixed(2);
  const held = list.filter(({ error, range }) => error <= range).length / list.length;
  const range = list.map(({ range }) => range).sort((a, b) => a - b)[Math.floor(list.length / 2)]!;
  console.log(
    `${name}: median ${part(0.5)}, 90th ${part(0.9)}, range held ${(100 * held).toFixed(0)} %, median range ${range.toFixed(1)}, ${list.length} yarns`,
  );
}
console.log(`chart found by itself in ${found} of ${Math.floor(PHOTOS / 5)}; ${refused} shades refused`);
