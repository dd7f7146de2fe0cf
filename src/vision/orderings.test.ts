/**
 * What must come before what, whatever the yarns: orders that people who measured eyes have found, and orders that follow from what
 * a length, a patch and a band are. Thresholds, lights and gauges are drawn by chance; where an order holds within limits, they are
 * said. Years and findings are from memory unless a page of ours is named.
 */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Lab } from "../colour/lab.ts";
import { deltaE2000 } from "../colour/difference.ts";
import { clothOfPattern, type Cloth } from "../fabric/cloth.ts";
import { bandContrast, rowContrast, spectrumMemory, USUAL_VIEWING } from "../fabric/contrast.ts";
import { spectrumOf } from "../fabric/spectra.ts";
import { channelsAt, pieceOfMotif, readsTo, readsToOf, sceneFor, USUAL_EYE, visibility, WORD_LIMITS, wordOf, type Word } from "../fabric/visibility.ts"; // prettier-ignore
import type { Gauge } from "../garment/gauge.ts";
import { SMOOTH_PAPER } from "./masking.ts";
import { opponentFromLab, WHITE_RESPONSE } from "./opponent.ts";
import { distanceForDegree, ROOM_VEIL } from "./viewing.ts";
import { join, type Eye } from "./visibility.ts";

/** Bisection leaves less than a ten-millionth of a distance. */
const ROUNDING = 1e-6;

const PAPER: Eye = { ...USUAL_EYE, texture: SMOOTH_PAPER };

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const lux = between(50, 2000);
const distance = between(0.4, 6);
const threshold = fc.constantFrom(WORD_LIMITS.faint, WORD_LIMITS.clear, WORD_LIMITS.strong);
const gauge = fc
  .tuple(between(16, 40), between(1, 1.5))
  .map(([stitches, taller]): Gauge => ({ stitches, rows: stitches * taller }));

/** Wool is less colourful the nearer it is to black and white; our choice. */
const yarn = fc
  .tuple(between(8, 95), between(0, 40), between(0, 2 * Math.PI))
  .map(([lightness, colourful, hue]): Lab => {
    const chroma = colourful * Math.min(1, lightness / 40, (105 - lightness) / 40);
    return [lightness, chroma * Math.cos(hue), chroma * Math.sin(hue)];
  });
const grey = between(8, 95).map((lightness): Lab => [lightness, 0, 0]);

/** Some stitches of each of two colours. */
const motif = fc
  .tuple(fc.integer({ min: 2, max: 6 }), fc.integer({ min: 1, max: 5 }))
  .chain(([width, height]) =>
    fc.array(fc.stringMatching(new RegExp(`^[01]{${width}}$`)), { minLength: height, maxLength: height }),
  )
  .filter((rows) => rows.join("").includes("0") && rows.join("").includes("1"));

/** Every stitch drawn as so many by so many. */
const grown = (rows: readonly string[], by: number): string[] =>
  rows.flatMap((row) => new Array<string>(by).fill([...row].map((stitch) => stitch.repeat(by)).join("")));

const checker = (size: number): string[] => grown(["10", "01"], size);

const law = <T extends [unknown, ...unknown[]]>(
  numRuns: number,
  arbitraries: { [K in keyof T]: fc.Arbitrary<T[K]> },
  holds: (...values: T) => void,
): void => fc.assert(fc.property(...arbitraries, holds), { seed: 7, numRuns });

// Campbell & Robson 1968 (J. Physiol. 197:551): past some cycles per degree the finer grating is the first to go. At a given distance
// near by the finer one may well show more; the law is of the farthest distance.
describe("fine before coarse", () => {
  it("of the same yarns in squares of one stitch and of more, the smaller squares are lost nearer", () => {
    const sizes = fc.constantFrom(1, 2, 3, 4);
    law(60, [sizes, yarn, yarn, gauge, lux, threshold], (size, background, foreground, knitted, light, wanted) => {
      const to = (squares: number): number =>
        readsTo({ background, foreground, motif: checker(squares), gauge: knitted, light, threshold: wanted }).metres;
      expect(to(2 * size)).toBeGreaterThanOrEqual(to(size) * (1 - ROUNDING));
    });
  });
});

// Mullen 1985 (J. Physiol. 359:381): what is told apart by hue alone ends at 11 to 12 cycles per degree, light and dark near 60.
describe("hue before value", () => {
  /** The same light–dark response as another, in another hue. */
  function asLightAs(other: Lab, a: number, b: number): Lab {
    const [wanted] = opponentFromLab(other);
    let [low, high] = [0, 100];
    for (let halving = 0; halving < 50; halving++) {
      const middle = (low + high) / 2;
      if (opponentFromLab([middle, a, b])[0] < wanted) low = middle;
      else high = middle;
    }
    return [low, a, b];
  }
  /** Two hues across from each other, as light as each other to the eye. */
  const huesAlone = fc
    .tuple(between(30, 75), between(0, 2 * Math.PI), between(10, 60), between(10, 60))
    .map(([lightness, hue, one, other]): [Lab, Lab] => {
      const first: Lab = [lightness, one * Math.cos(hue), one * Math.sin(hue)];
      return [first, asLightAs(first, -other * Math.cos(hue), -other * Math.sin(hue))];
    });
  /** Two greys about L* 50 that differ by as much as two hues, in ΔE00. */
  function greysAsFarApart([one, other]: readonly [Lab, Lab]): [Lab, Lab] {
    const wanted = deltaE2000(one, other);
    let [low, high] = [0, 49];
    const greys = (half: number): [Lab, Lab] => [[50 - half, 0, 0], [50 + half, 0, 0]]; // prettier-ignore
    for (let halving = 0; halving < 50; halving++) {
      const middle = (low + high) / 2;
      if (deltaE2000(...greys(middle)) < wanted) low = middle;
      else high = middle;
    }
    return greys(high);
  }
  const squares = fc.integer({ min: 1, max: 4 });
  const spectrumFor = (size: number, { stitches, rows }: Gauge) =>
    spectrumOf(pieceOfMotif(checker(size), 2), {
      stitch: { widthMm: 100 / stitches, heightMm: 100 / rows },
      rows: "tiled",
    });

  it("hue alone, counted in full and on smooth paper, is not detected past 12 cycles per degree", () => {
    law(150, [huesAlone, squares, gauge, between(50, 5000)], (hues, size, knitted, light) => {
      const spectrum = spectrumFor(size, knitted);
      const metres = distanceForDegree(12 / spectrum.lowest);
      expect(join(channelsAt(sceneFor(spectrum, hues, light, PAPER), metres), 1)).toBeLessThan(1);
    });
  });

  // Of what is just seen and of what reads. What is strong may on cloth be so by hue alone: cloth masks light and dark, not hue.
  it("hue alone is lost nearer than a difference of value of the same ΔE00, on cloth and on paper", () => {
    const seenOrRead = fc.constantFrom(WORD_LIMITS.faint, WORD_LIMITS.clear);
    law(40, [huesAlone, squares, gauge, lux, seenOrRead], (hues, size, knitted, light, wanted) => {
      const spectrum = spectrumFor(size, knitted);
      for (const eye of [USUAL_EYE, PAPER]) {
        const to = (pair: readonly Lab[]): number => readsToOf(sceneFor(spectrum, pair, light, eye), wanted).metres;
        const hue = to(hues);
        // Both may be never; what reads by hue at all, reads by value farther.
        if (hue > 0) expect(to(greysAsFarApart(hues))).toBeGreaterThan(hue);
      }
    });
  });
});

// Ricco 1877: for the eye a spot below some minutes of arc is as strong as it is large; larger ones gain less and less.
describe("small before large", () => {
  it.each([undefined, "once"] as const)("the same shape twice as large reads at least as far (rows: %s)", (rows) => {
    law(50, [motif, yarn, yarn, gauge, threshold], (shape, background, foreground, knitted, wanted) => {
      const to = (drawn: string[]): number =>
        readsTo({ background, foreground, motif: drawn, gauge: knitted, threshold: wanted, ...(rows ? { rows } : {}) })
          .metres;
      expect(to(grown(shape, 2))).toBeGreaterThanOrEqual(to(shape) * (1 - ROUNDING));
    });
  });

  // On cloth the texture hides the small spot more than the large one, and the gain is larger near by; so on smooth paper.
  it("a spot of twice the side gains nearly fourfold when tiny, and ever less the larger it looks", () => {
    const FIELD = 24;
    const spot = (side: number): string[] =>
      Array.from({ length: FIELD }, (_, y) =>
        Array.from({ length: FIELD }, (_unused, x) => (x < side && y < side ? "1" : "0")).join(""),
      );
    const shown = (side: number, metres: number): number => {
      const spectrum = spectrumOf(pieceOfMotif(spot(side), 2), {
        stitch: { widthMm: 3.5, heightMm: 3.5 },
        rows: "tiled",
      });
      return channelsAt(sceneFor(spectrum, [[50, 0, 0], [52, 0, 0]], 500, PAPER), metres * 1000).lightDark; // prettier-ignore
    };
    const gain = (side: number, metres: number): number => shown(2 * side, metres) / shown(side, metres);
    // Sides of 0.6 and 1.2 minutes of arc: 3.5 mm at 20 m.
    expect(gain(1, 20)).toBeGreaterThan(3.5);
    expect(gain(1, 20)).toBeLessThan(4);
    for (const metres of [20, 10, 6, 3, 2]) expect(gain(1, metres / 2)).toBeLessThan(gain(1, metres));
    for (const metres of [20, 6, 2]) expect(gain(4, metres)).toBeLessThan(gain(1, metres));
  });
});

// A finer gauge is the same picture smaller. Finer in stitches or rows alone it is another picture with another texture: on smooth
// paper it is lost nearer all the same, on cloth it need not be (two random motifs in two hundred read farther in finer rows). Nor
// need it be nearer than a metre, where the eye sees coarse stripes less well than finer ones.
describe("fine gauge before coarse gauge", () => {
  const finer = between(1.05, 2);

  it("the same motif knitted finer is lost nearer", () => {
    law(60, [motif, yarn, yarn, gauge, finer, threshold], (rows, background, foreground, coarse, by, wanted) => {
      const to = (knitted: Gauge): number =>
        readsTo({ background, foreground, motif: rows, gauge: knitted, threshold: wanted }).metres;
      const fine = to({ stitches: coarse.stitches * by, rows: coarse.rows * by });
      expect(fine).toBeLessThanOrEqual(to(coarse));
      if (fine > 0) expect(fine).toBeLessThan(to(coarse));
    });
  });

  it("on smooth paper it is so with finer stitches alone, and with finer rows alone", () => {
    law(60, [motif, yarn, yarn, gauge, finer, threshold], (rows, one, other, coarse, by, wanted) => {
      const to = (widthMm: number, heightMm: number): number =>
        readsToOf(
          sceneFor(spectrumOf(pieceOfMotif(rows, 2), { stitch: { widthMm, heightMm }, rows: "tiled" }), [one, other], 500, PAPER),
          wanted,
        ).metres; // prettier-ignore
      const [width, height] = [100 / coarse.stitches, 100 / coarse.rows];
      const whole = to(width, height) * (1 + ROUNDING);
      for (const fine of [to(width / by, height), to(width, height / by)])
        if (fine > 1) expect(fine).toBeLessThanOrEqual(whole);
    });
  });
});

// By B1 of the model. Two limits. Where the cap acts (one colour so rare or so unlike that ΔC_A would pass 2) it may fall: a few light
// stitches on a ground that grows darker lost up to a fifth at 500 lx and two fifths at 50 lx in some thousands by chance. And the
// hue part of V may fall when a yarn grows lighter, since the eye then is adapted to more light: so greys, or the light–dark part.
describe("more light against dark is never less to see", () => {
  const WORDS: Word[] = ["lost", "faint", "clear", "strong"];
  /** Of the way from where a yarn is to white, or to black: away from the other. */
  const further = between(0, 1);
  const away = (moved: Lab, from: Lab, part: number): Lab => {
    const end = moved[0] > from[0] ? 97 : 3;
    return [moved[0] + part * (end - moved[0]), moved[1], moved[2]];
  };
  /** Range of A over the mean with its veil: what the cap holds at 2. */
  function contrastOf(rows: readonly string[], zero: Lab, one: Lab): number {
    const all = rows.join("");
    const share = (all.split("1").length - 1) / all.length;
    const [dark, light] = [opponentFromLab(zero)[0], opponentFromLab(one)[0]];
    return Math.abs(light - dark) / (share * light + (1 - share) * dark + ROOM_VEIL * WHITE_RESPONSE);
  }
  const seenBothWays = (
    rows: string[],
    still: Lab,
    moved: Lab,
    part: number,
    knitted: Gauge,
    light: number,
    metres: number,
  ) => {
    const seen = (foreground: Lab) =>
      visibility({ background: still, foreground, motif: rows, gauge: knitted, light, distance: metres });
    return { less: seen(moved), more: seen(away(moved, still, part)), contrast: contrastOf(rows, still, away(moved, still, part)) }; // prettier-ignore
  };
  const least = 1 - ROUNDING;

  it("of two greys below the cap, V and its word never fall when one moves away from the other", () => {
    law(400, [motif, grey, grey, further, gauge, lux, distance], (...scene) => {
      const { less, more, contrast } = seenBothWays(...scene);
      fc.pre(contrast <= USUAL_EYE.contrastCap);
      expect(more.V).toBeGreaterThanOrEqual(less.V * least);
      expect(WORDS.indexOf(wordOf(more.V))).toBeGreaterThanOrEqual(WORDS.indexOf(wordOf(less.V * least)));
    });
  });

  it("of any two yarns below the cap, the light–dark part never falls", () => {
    law(400, [motif, yarn, yarn, further, gauge, lux, distance], (...scene) => {
      const { less, more, contrast } = seenBothWays(...scene);
      // A little beside L* counts towards A: yarns as light as each other may cross over.
      fc.pre(contrast <= USUAL_EYE.contrastCap && Math.abs(scene[1][0] - scene[2][0]) > 3);
      expect(more.lightDark).toBeGreaterThanOrEqual(less.lightDark * least);
    });
  });

  // Where the cap acts a darker ground adds no contrast, and leaves the eye in less light.
  it("with the eye adapted to the same light it never falls, cap or no cap", () => {
    law(200, [motif, yarn, yarn, further, gauge, lux, distance], (rows, still, moved, part, knitted, light, metres) => {
      fc.pre(Math.abs(still[0] - moved[0]) > 3);
      const stitch = { widthMm: 100 / knitted.stitches, heightMm: 100 / knitted.rows };
      const spectrum = spectrumOf(pieceOfMotif(rows, 2), { stitch, rows: "tiled" });
      const before = sceneFor(spectrum, [still, moved], light, USUAL_EYE);
      const after = sceneFor(spectrum, [still, away(moved, still, part)], light, USUAL_EYE);
      const { luminance } = before.field;
      const inThatLight = channelsAt({ ...after, field: { ...after.field, luminance } }, metres * 1000);
      expect(inThatLight.lightDark).toBeGreaterThanOrEqual(channelsAt(before, metres * 1000).lightDark * least);
    });
  });
});

// A band, and a row of two colours, are judged by their own stitches. A row of one colour is a figure between its neighbours, and
// changes with them.
describe("what is elsewhere in the garment", () => {
  const HEIGHT = 12;
  const WIDTH = 8;
  const BAND = [5, 8] as const;
  const labs: Lab[] = [
    [85, 2, 10],
    [30, 4, -20],
    [55, 30, 20],
  ];
  const clothOf = (cells: readonly number[]): Cloth =>
    clothOfPattern({
      chart: {
        id: "c",
        rows: Array.from({ length: HEIGHT }, (_, y) => cells.slice(y * WIDTH, (y + 1) * WIDTH).join("")),
      },
      pattern: {
        gauge: { stitches: 28, rows: 30 },
        colours: labs.map((lab, at) => ({ id: String(at), shade: { lab } })),
        charts: [],
      },
    });
  /** Nothing is remembered from one cloth to the next. */
  const band = (cloth: Cloth) =>
    bandContrast(cloth, { rows: [...BAND], pattern: [1] }, USUAL_VIEWING, spectrumMemory());

  it("a stitch changed outside a band does not change the band, nor its rows of several colours", () => {
    const colour = fc.integer({ min: 0, max: 2 });
    const cells = fc.array(colour, { minLength: WIDTH * HEIGHT, maxLength: WIDTH * HEIGHT });
    // Rows count from the bottom, text from the top.
    const outside = fc
      .integer({ min: 0, max: WIDTH * HEIGHT - 1 })
      .filter((at) => HEIGHT - Math.floor(at / WIDTH) < BAND[0] || HEIGHT - Math.floor(at / WIDTH) > BAND[1]);
    law(40, [cells, outside, colour], (before, at, changed) => {
      const [one, other] = [clothOf(before), clothOf(before.with(at, changed))];
      expect(band(other)).toEqual(band(one));
      for (let row = BAND[0]; row <= BAND[1]; row++) {
        const [was, is] = [one, other].map((cloth) => rowContrast(cloth, row, USUAL_VIEWING, spectrumMemory()));
        if (was!.areas.length > 1) expect(is).toEqual(was);
      }
    });
  });

  it("one changed inside does", () => {
    const before = Array.from({ length: WIDTH * HEIGHT }, (_, at) => at % 2);
    expect(band(clothOf(before.with(WIDTH * 5, 2)))).not.toEqual(band(clothOf(before)));
  });
});

// Whatever is twice as large and twice as far is the same picture on the eye. Nearer than 0.3 m nobody looks, so an answer of
// "never" may become a distance when all is larger, and a distance "never" when all is smaller.
describe("scaling all lengths scales the distance", () => {
  it("exactly, with a patch or without, tiled or alone", () => {
    const patch = fc.option(fc.record({ widthMm: between(20, 400), heightMm: between(20, 400) }), { nil: null });
    const alone = fc.constantFrom("once" as const, null);
    law(
      60,
      [motif, yarn, yarn, gauge, between(1, 4), patch, alone],
      (rows, background, foreground, small, by, seen, lone) => {
        const to = (scale: number) =>
          readsTo({
            background,
            foreground,
            motif: rows,
            gauge: { stitches: small.stitches / scale, rows: small.rows / scale },
            ...(seen ? { patch: { widthMm: seen.widthMm * scale, heightMm: seen.heightMm * scale } } : {}),
            ...(lone ? { rows: lone } : {}),
          });
        const [one, larger] = [to(1), to(by)];
        for (const end of ["metres", "low", "high"] as const)
          if (one[end] > 0) expect(Math.abs(larger[end] / (by * one[end]) - 1)).toBeLessThan(ROUNDING);
        expect(larger.beyond).toBe(one.beyond);
      },
    );
  });
});
