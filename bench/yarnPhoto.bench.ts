/**
 * How true photographed shades are, by kind of reference: painted photographs in even and in uneven light, of seeds that constants
 * were tried on and of seeds that were held out, and real photographs of charts, whose patches stand in for yarns.
 * PHOTOS: painted photographs of each kind; REAL: a folder with charts as NAME.jpg.
 */
import { existsSync, readdirSync, readFileSync } from "node:fs";
import sharp from "sharp";
import { deltaE2000 } from "../src/colour/difference.ts";
import type { Lab } from "../src/colour/lab.ts";
import { decodePicture } from "../src/cli/pictures.ts";
import { readYarnPhoto, surveyPhoto, type PhotoReference } from "../src/intake/yarnPhoto.ts";
import { CHART, CHART_LABS } from "../src/intake/yarnPhoto/chart24.ts";
import { readingBy } from "../src/intake/yarnPhoto/reading.ts";
import type { PhotoSurvey } from "../src/intake/yarnPhoto/survey.ts";
import { rasterFromBytes, type Raster } from "../src/raster/raster.ts";
import { paintYarnPhoto, type PaintedPhoto } from "../test/intake/yarnPainter.ts";
import type { Room } from "../test/intake/yarnCamera.ts";

const PHOTOS = Number(process.env.PHOTOS ?? 30);
/** Constants were tried on the first hundred; nothing was ever set by those from here on. */
const HELD_OUT = 20_000;
const boxOf = ([x, y, width, height]: readonly number[]) => ({ x: x!, y: y!, width: width!, height: height! });

interface Told {
  readonly error: number;
  readonly range: number;
  readonly lab: readonly number[];
}

const at = (sorted: readonly number[], share: number): number => sorted[Math.floor(share * (sorted.length - 1))]!;
function line(name: string, told: readonly Told[]): void {
  if (told.length === 0) return;
  const errors = told.map(({ error }) => error).sort((one, other) => one - other);
  const ranges = told.map(({ range }) => range).sort((one, other) => one - other);
  const held = told.filter(({ error, range }) => error <= range).length / told.length;
  console.log(
    `${name.padEnd(28)} median ${at(errors, 0.5).toFixed(2)}, 90th ${at(errors, 0.9).toFixed(2)}, held ${(100 * held).toFixed(0)} %, ±${at(ranges, 0.5).toFixed(1)}, ${told.length}`,
  );
}

async function photographed(photo: PaintedPhoto, quality: number): Promise<Raster> {
  const size = { width: photo.width, height: photo.height };
  const jpeg = await sharp(photo.rgb, { raw: { ...size, channels: 3 } })
    .jpeg({ quality })
    .toBuffer();
  const { data } = await sharp(jpeg).ensureAlpha().raw().toBuffer({ resolveWithObject: true });
  return rasterFromBytes(size.width, size.height, data);
}

async function painted(room: Room, from: number): Promise<void> {
  const results = new Map<string, Told[]>();
  let [found, falsely, refused, took] = [0, 0, 0, 0];
  for (let seed = from; seed < from + PHOTOS; seed++) {
    const photo = paintYarnPhoto(seed, CHART_LABS, room);
    const raster = await photographed(photo, 60 + ((seed * 7) % 36));
    const corners = [0, 2, 4, 6].map((index) => [photo.corners[index]!, photo.corners[index + 1]!] as const);
    const begun = performance.now();
    const survey = surveyPhoto(raster, { kind: "find" }).value?.reference;
    took += performance.now() - begun;
    const first = survey?.kind === "patches" ? survey.corners[0]! : null;
    const misplaced = first ? Math.hypot(first[0] - corners[0]![0], first[1] - corners[0]![1]) : NaN;
    if (misplaced < 12) found++;
    else if (first) falsely++;
    const cases: [string, PhotoReference][] = [
      ["24 patches", { kind: "patches", corners }],
      ["grey card", { kind: "grey", area: boxOf(photo.grey) }],
      ["white paper, tint told", { kind: "white", area: boxOf(photo.white), tint: photo.paper }],
      ["white paper", { kind: "white", area: boxOf(photo.white) }],
      ["none", { kind: "none" }],
    ];
    for (const [name, reference] of cases) {
      const { value } = readYarnPhoto(raster, { yarns: photo.yarns.map(({ box }) => boxOf(box)), reference });
      const list = results.get(name) ?? [];
      results.set(name, list);
      value?.yarns.forEach(({ lab, uncertainty }, index) => {
        const truth = photo.yarns[index]!.lab;
        if (lab && uncertainty !== null) list.push({ error: deltaE2000(lab, truth), range: uncertainty, lab: truth });
        else refused++;
      });
      if (!value) refused += photo.yarns.length;
    }
  }
  console.log(`painted, ${room} light, seeds from ${from}`);
  for (const [name, told] of results) {
    line(`  ${name}`, told);
    line(
      "    dark (L* < 35)",
      told.filter(({ lab }) => lab[0]! < 35),
    );
    line(
      "    light (L* > 72)",
      told.filter(({ lab }) => lab[0]! > 72),
    );
    line(
      "    strong (C* > 35)",
      told.filter(({ lab }) => Math.hypot(lab[1]!, lab[2]!) > 35),
    );
  }
  console.log(
    `  chart found ${found} of ${PHOTOS}, elsewhere ${falsely}, ${(took / PHOTOS).toFixed(0)} ms; ${refused} refused`,
  );
}

async function real(folder: string): Promise<void> {
  const all = new Map<string, Told[]>();
  for (const file of readdirSync(folder).filter((name) => name.endsWith(".jpg"))) {
    const picture = await decodePicture(file, readFileSync(`${folder}/${file}`));
    const begun = performance.now();
    const survey = surveyPhoto(picture, { kind: "find" }).value!;
    const took = performance.now() - begun;
    if (survey.reference.kind !== "patches") {
      console.log(`${file}: no chart found, ${took.toFixed(0)} ms`);
      continue;
    }
    console.log(`${file}: chart found, ${took.toFixed(0)} ms of ${picture.width} × ${picture.height}`);
    const { patches } = survey.reference;
    const neutral = (index: number, spread: Lab): PhotoSurvey["reference"] => {
      const patch = patches.find((one) => one.index === index)!;
      const surface = { rgb: patch.rgb, spread: 0, clipped: 0, bottomed: 0, pixels: 1000 };
      return { kind: "grey", surface, at: patch.at, known: { lab: CHART_LABS[index]!, spread } };
    };
    const ways: [string, (index: number) => PhotoSurvey["reference"]][] = [
      [
        "all others",
        (left) => ({ ...survey.reference, patches: patches.filter(({ index }) => index !== left) }) as never,
      ],
      [
        "the six greys",
        () => ({ ...survey.reference, patches: patches.filter(({ index }) => index >= CHART.firstGrey) }) as never,
      ],
      ["one middle grey", () => neutral(21, [0.8, 0.5, 0.7])],
      ["none", () => ({ kind: "none" })],
    ];
    for (const [name, referenceFor] of ways) {
      const told = patches
        .filter(({ index }) => index < CHART.firstGrey)
        .map(({ index, rgb, at: place }): Told => {
          const reading = readingBy({ ...survey, reference: referenceFor(index) });
          const surface = { rgb, spread: 0, clipped: 0, bottomed: 0, pixels: 1000 };
          const lab = CHART_LABS[index]!;
          return {
            error: deltaE2000(reading.labOf(rgb, place), lab),
            range: reading.uncertaintyOf(surface, place),
            lab,
          };
        });
      line(`  by ${name}`, told);
      all.set(name, [...(all.get(name) ?? []), ...told]);
    }
  }
  console.log("real photographs together");
  for (const [name, told] of all) line(`  by ${name}`, told);
}

for (const room of ["even", "uneven"] as const) for (const from of [1, HELD_OUT]) await painted(room, from);
const folder = process.env.REAL;
if (folder && existsSync(folder)) await real(folder);
