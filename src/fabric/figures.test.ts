/** Parts of figures: which there are, by eye; and their V against the whole sum of B2 and B7, term by term, without bins. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { xyzFromLab, type Lab } from "../colour/lab.ts";
import { opponentFromXyz } from "../vision/opponent.ts";
import { chromaticGuard, sensitivity } from "../vision/contrastSensitivity.ts";
import { clothOfPattern } from "./cloth.ts";
import { spectrumMemory } from "./contrast.ts";
import { figureParts, partContrasts } from "./figures.ts";
import { pieceOfMotif } from "./visibility.ts";

/** As drawn, top row first; the piece is laid out the same way round. */
const partsIn = (motif: readonly string[]): string[] =>
  figureParts(pieceOfMotif(motif, 4)).map(
    ({ area, against, rows, times, piece }) =>
      `${area} in ${against} rows ${rows.join("-")} ×${times}: ${Array.from(piece.cells).filter((cell) => cell === 1).length}`,
  );

describe("parts of figures", () => {
  it("are shapes of one colour within another, equal ones in the same rows together, the largest first", () =>
    expect(
      partsIn([
        "0000000000",
        "0110000010",
        "0110010000",
        "0000000000", //
      ]),
    ).toEqual(["1 in 0 rows 1-2 ×1: 4", "1 in 0 rows 1-1 ×1: 1", "1 in 0 rows 2-2 ×1: 1"]));
  it("equal shapes in the same rows count together", () =>
    expect(partsIn(["000000000000", "011000110010", "011000110010", "000000000000"])).toEqual([
      "1 in 0 rows 1-2 ×2: 8",
      "1 in 0 rows 1-2 ×1: 2",
    ]));
  it("go on past the edge, where the repeat joins", () =>
    expect(partsIn(["0000000000", "1000000001", "0001000000", "0000000000"])).toEqual([
      "1 in 0 rows 1-1 ×1: 2",
      "1 in 0 rows 2-2 ×1: 1",
    ]));
  it("a hole in a figure is a part of its ground", () =>
    expect(partsIn(["00000000", "01111000", "01001000", "01111000", "00000000"])).toEqual(["0 in 1 rows 2-2 ×1: 2"]));
  it("what goes all the way round is none, nor what is the whole of its colour, nor what touches two others", () => {
    expect(partsIn(["00000000", "11111111", "00000000", "00110000"])).toEqual(["1 in 0 rows 3-3 ×1: 2"]);
    expect(partsIn(["00000000", "01100000", "00000000"])).toEqual([]);
    expect(partsIn(["00000000", "01100100", "02220000", "00000000"])).toEqual(["1 in 0 rows 1-1 ×1: 1"]);
  });
  it("where there is no stitch nothing is touched", () =>
    expect(partsIn(["00000000", "0-1-0010", "00100000"])).toContain("1 in 0 rows 1-1 ×1: 1"));
  it("a stitch or two of a large piece is none, and neither is a shape of more than sixty stitches", () => {
    const plain = "0".repeat(40);
    // 1 of 160 stitches is less than a hundredth; 3 are more.
    expect(partsIn([plain, `0111000010${"0".repeat(30)}`, plain, plain])).toEqual(["1 in 0 rows 1-1 ×1: 3"]);
    const block = `0${"1".repeat(31)}00001110`;
    expect(partsIn([plain, block, block, plain])).toEqual(["1 in 0 rows 1-2 ×1: 6"]);
  });
});

describe("laws", () => {
  const cells = fc.array(fc.integer({ min: 0, max: 2 }), { minLength: 48, maxLength: 48 });

  it("a stitch lies in one part at most, of its own colour, and a shift sideways changes nothing", () =>
    fc.assert(
      fc.property(cells, fc.integer({ min: 1, max: 7 }), (drawn, shift) => {
        const piece = { width: 8, height: 6, cells: Uint8Array.from(drawn), count: 3 };
        const moved = Uint8Array.from(drawn, (_, at) => drawn[at - (at % 8) + ((at + shift) % 8)]!);
        const parts = figureParts(piece);
        const taken = new Set<number>();
        for (const { piece: own, area } of parts)
          Array.from(own.cells).forEach((cell, at) => {
            if (cell !== 1) return;
            expect(drawn[at]).toBe(area);
            expect(taken.has(at)).toBe(false);
            taken.add(at);
          });
        const summary = (found: typeof parts) =>
          found.map(({ area, against, rows, times }) => JSON.stringify([area, against, rows, times])).sort();
        expect(summary(figureParts({ ...piece, cells: moved }))).toEqual(summary(parts));
      }),
      { seed: 7, numRuns: 100 },
    ));
});

/** The eye's own numbers, from vision.md B1, B2, B5, B7 and B7a. */
const CLOTH = { stitch: 0.12, floor: 0.025, veil: 0.05, hue: 0.5, cap: 2 };
const A_WHITE = opponentFromXyz(xyzFromLab([100, 0, 0]))[0];

const LABS: readonly Lab[] = [
  [86, 1, 9],
  [38, 3, -14],
  [52, 28, 20],
];
const GAUGE = { stitches: 28, rows: 30 };
const MOTIF = [
  "00000000",
  "01100010",
  "01100000",
  "00022200", //
];

/** V of some stitches in colour `own` amid `around`, in a lone band: every frequency up to the sixth harmonic, none in bins. */
function plainV(
  inPart: (x: number, y: number) => boolean,
  own: number,
  around: number,
  metres: number,
  lux: number,
): number {
  const [width, height] = [MOTIF[0]!.length, MOTIF.length];
  const [w, h] = [100 / GAUGE.stitches, 100 / GAUGE.rows];
  const rows = 8 * height;
  const cells = MOTIF.flatMap((text, y) => [...text].map((digit, x) => ({ x, y, area: Number(digit) })));
  const part = cells.filter(({ x, y }) => inPart(x, y));
  const share = part.length / cells.length;
  const responses = LABS.map((lab) => opponentFromXyz(xyzFromLab(lab)));
  const mean = (read: (area: number) => number): number =>
    cells.reduce((sum, { area }) => sum + read(area), 0) / cells.length;
  const background = mean((area) => responses[area]![0]) + CLOTH.veil * A_WHITE;
  const luminance = (lux * (mean((area) => xyzFromLab(LABS[area]!)[1]) + CLOTH.veil)) / Math.PI;
  const scale = 2 * metres * 1000 * Math.tan(Math.PI / 360);
  const extent = (width * w * height * h) / scale ** 2;
  const texture = scale / Math.sqrt(w * h);
  const atTexture = sensitivity("lightDark", texture, luminance, extent);
  const sinc = (x: number): number => (x === 0 ? 1 : Math.sin(Math.PI * x) / (Math.PI * x));
  const sums = [0, 0, 0];
  for (let K = -6 * width; K <= 6 * width; K++) {
    for (let L = -6 * rows; L <= 6 * rows; L++) {
      const frequency = scale * Math.hypot(K / (width * w), L / (rows * h));
      if (frequency === 0 || frequency > 60) continue;
      let re = 0;
      let im = 0;
      for (const { x, y } of cells) {
        const level = (inPart(x, y) ? 1 : 0) - share;
        const turn = 2 * Math.PI * ((K * x) / width + (L * y) / rows);
        re += level * Math.cos(turn);
        im += level * Math.sin(turn);
      }
      const power = ((re ** 2 + im ** 2) / (width * rows) ** 2) * (sinc(K / width) * sinc(L / rows)) ** 2 * 8;
      const lightDark = sensitivity("lightDark", frequency, luminance, extent) ** 2;
      const masked =
        2 * (CLOTH.stitch * atTexture) ** 2 * Math.exp(-(Math.log2(frequency / texture) ** 2)) +
        2 * CLOTH.floor ** 2 * lightDark;
      sums[0]! += (2 * power * lightDark) / (1 + masked);
      const guard = chromaticGuard(frequency);
      sums[1]! += 2 * power * (sensitivity("redGreen", frequency, luminance, extent) * guard) ** 2;
      sums[2]! += 2 * power * (sensitivity("yellowViolet", frequency, luminance, extent) * guard) ** 2;
    }
  }
  const difference = responses[own]!.map((part, axis) => Math.abs(part - responses[around]![axis]!) / background);
  const lightDark = Math.min(CLOTH.cap, difference[0]!) * Math.sqrt(sums[0]!);
  return Math.hypot(
    lightDark,
    CLOTH.hue * difference[1]! * Math.sqrt(sums[1]!),
    CLOTH.hue * difference[2]! * Math.sqrt(sums[2]!),
  );
}

/** vision.md B2: bins agree with the whole sum of an isolated band to 1.3e-4; three times that. */
const BINNED = 4e-4;

describe("how a part shows", () => {
  const colours = LABS.map((lab, at) => ({ id: String(at), shade: { lab } }));
  const cloth = clothOfPattern({
    chart: { id: "c", rows: ["00000000", "11111111", ...MOTIF] },
    pattern: { gauge: GAUGE, colours, charts: [] },
  });
  // Rows count from the bottom, the motif's last row is row 1.
  const band = { rows: [1, 4] as const };

  it.each([
    { distanceM: 0.8, lux: 500 },
    { distanceM: 1.5, lux: 100 },
    { distanceM: 4, lux: 2000 },
  ])("is the whole sum of its own stitches alone, at %j", (viewing) => {
    const memory = spectrumMemory();
    const parts = partContrasts(cloth, band, viewing, memory);
    const { distanceM, lux } = viewing;
    const block = plainV((x, y) => (x === 1 || x === 2) && (y === 1 || y === 2), 1, 0, distanceM, lux);
    const speck = plainV((x, y) => x === 6 && y === 1, 1, 0, distanceM, lux);
    expect(parts.map(({ rows, times }) => [...rows, times])).toEqual([
      [2, 3, 1],
      [3, 3, 1],
    ]);
    for (const [at, expected] of [block, speck].entries()) {
      expect(Math.abs(parts[at]!.V / expected - 1)).toBeLessThan(BINNED);
      expect([parts[at]!.area.colours, parts[at]!.against.colours]).toEqual([["1"], ["0"]]);
    }
  });

  it("a row has none: it is judged as a row", () =>
    expect(partContrasts(cloth, { rows: [3, 3] }, { distanceM: 1.5, lux: 500 }, spectrumMemory())).toEqual([]));
});
