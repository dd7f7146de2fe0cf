/** Yarns found and outlined in a photograph, as a first proposal that she corrects. */
import type { Outcome } from "../../base/problem.ts";
import { clipBox, type Box, type Raster } from "../../raster/raster.ts";
import { tableShares } from "./tableShares.ts";
import type { Point } from "./homography.ts";
import { BY_COLOUR, BY_TEXTURE, lookAt, piecesOf, type Look } from "./look.ts";
import { mainPart } from "./mainPart.ts";
import type { MergeTree } from "./mergeTree.ts";
import { innerBoxOf, isWithin, maskOf, outlineOf } from "./outline.ts";
import { likelyPieces, sharedPart, typicalSize, type Proposal } from "./proposals.ts";
import { joinedWholes } from "./wholeThings.ts";

/** Pixels of the picture, clockwise on the screen, not closed. */
export type Outline = readonly Point[];

export interface FoundYarn {
  /** 8 to 24 points. */
  readonly outline: Outline;
  /** Whole pixels: what the outline lies in. */
  readonly box: Box;
  /** Whole pixels, within the yarn and away from its edge: where its shade is best looked at. */
  readonly inner: Box;
  /** How surely it is one yarn, 0 to 1. */
  readonly confidence: number;
}

export interface FindOptions {
  /** Where no yarn is: the chart, the grey card, the paper. */
  readonly avoid?: readonly (Box | Outline)[];
  readonly stop?: () => boolean;
  /** Told what part of the work is done, 0 to 1. */
  readonly onStep?: (share: number) => void;
}

/** From this score on a piece surely is no table; our choice. */
const SURE = 0.6;
/** Less likely pieces are not proposed; our choice. */
const LEAST_CONFIDENCE = 0.2;
/** What is smaller than this part of the typical yarn is a tag, a shine or a gap. Our choice. */
const LEAST_SIZE = 0.12;
/** A piece of which this part lies where no yarn is, is none. Our choice. */
const MOST_AVOIDED = 0.3;
/** A yarn found by its texture must not share more than this part with one found by its colour. Our choice. */
const MOST_SHARED = 0.15;

/**
 * Row by row from the top, each from the left. It works on a small copy, so that any size is quick.
 *
 * @param picture upright, linear light
 * @returns an empty list with a doubt where no yarn is found; no value where it was stopped
 */
export function findYarns(picture: Raster, options: FindOptions = {}): Outcome<FoundYarn[]> {
  const { avoid = [], stop = () => false, onStep = () => undefined } = options;
  const stopped: Outcome<FoundYarn[]> = {
    value: null,
    problems: [{ where: "the search for yarns", expected: "to be let finish", got: "a stop", severity: "note" }],
  };
  const look = lookAt(picture);
  const scale = { x: picture.width / look.width, y: picture.height / look.height };
  const avoided = marked(look, avoid, scale);
  onStep(0.3);
  if (stop()) return stopped;
  const byColour = yarnsOf(look, piecesOf(look, BY_COLOUR), null);
  onStep(0.6);
  if (stop()) return stopped;
  const byTexture = yarnsOf(look, piecesOf(look, BY_TEXTURE), byColour);
  onStep(0.9);
  if (stop()) return stopped;
  const likely = joinedWholes(look, byColour.isTable, [...byColour.yarns, ...byTexture.yarns]).filter(
    (yarn) => yarn.score >= LEAST_CONFIDENCE && sharedPart(yarn, avoided) < MOST_AVOIDED,
  );
  const typical = typicalSize(likely, 0);
  const brightest = brightestOf(look);
  const found = likely
    .filter((yarn) => yarn.pixels.length * yarn.score > LEAST_SIZE * typical && !isTag(yarn, typical, brightest))
    .map((yarn) => foundYarn(look, yarn, picture, scale));
  onStep(1);
  if (found.length > 0) return { value: inReadingOrder(found), problems: [] };
  const expected = "yarns that lie apart on a plain ground of another colour";
  return {
    value: [],
    problems: [{ where: "the picture", expected, got: "none that stand out; outline them by hand", severity: "doubt" }],
  };
}

/** A name on paper: small beside the yarns, with corners, about as bright as anything and without colour. Our choice. */
const TAG = { size: 0.6, unround: 1.1, brightness: 0.72, colour: 5 };

function isTag({ pixels, shape, seen }: Proposal, typical: number, brightest: number): boolean {
  const [lightness, a, b] = [seen[0]!, seen[1]!, seen[2]!];
  const isPaper = lightness > TAG.brightness * brightest && Math.hypot(a, b) < TAG.colour;
  return isPaper && pixels.length < TAG.size * typical && shape.unround > TAG.unround;
}

/** Lightness that a fiftieth of the picture exceeds. */
function brightestOf({ planes: [lightness] }: Look): number {
  const sorted = lightness.data.toSorted();
  return sorted[Math.floor(0.98 * (sorted.length - 1))]!;
}

interface Found {
  readonly yarns: readonly Proposal[];
  /** 1 for each pixel that looks like the table. */
  readonly isTable: Uint8Array<ArrayBuffer>;
  readonly typical: number;
}

/** What is likely a yarn, once by the picture's edge alone and once again by all in which nothing was found at first. */
function yarnsOf(look: Look, tree: MergeTree, known: Found | null): Found {
  const total = look.width * look.height;
  const basinAt = new Int32Array(total);
  for (let basin = 0; basin < tree.basins; basin++)
    for (let at = tree.first[basin]!; at < tree.first[basin]! + tree.area[basin]!; at++)
      basinAt[tree.order[at]!] = basin;
  const atFirst = known?.yarns ?? likelyPieces(look, tree, tableShares(look, tree, basinAt, null), 0);
  const taken = marks(
    total,
    atFirst.filter(({ score }) => score > SURE),
  );
  const ground = tableShares(look, tree, basinAt, taken);
  const typical = known?.typical ?? typicalSize(atFirst, 0.02 * total);
  const yarns = likelyPieces(look, tree, ground, typical);
  const before = known && marks(total, known.yarns);
  return {
    yarns: before
      ? yarns.filter((yarn) => yarn.score > LEAST_CONFIDENCE && sharedPart(yarn, before) < MOST_SHARED)
      : yarns,
    isTable: Uint8Array.from(basinAt, (basin) => (ground[basin]! >= 0.5 ? 1 : 0)),
    typical,
  };
}

function marks(total: number, yarns: readonly Proposal[]): Uint8Array {
  const out = new Uint8Array(total);
  for (const { pixels } of yarns) for (const pixel of pixels) out[pixel] = 1;
  return out;
}

interface Scale {
  readonly x: number;
  readonly y: number;
}

function marked({ width, height }: Look, regions: readonly (Box | Outline)[], scale: Scale): Uint8Array {
  const out = new Uint8Array(width * height);
  for (const region of regions) {
    const around: Outline =
      "x" in region
        ? [
            [region.x, region.y],
            [region.x + region.width, region.y],
            [region.x + region.width, region.y + region.height],
            [region.x, region.y + region.height],
          ]
        : region;
    for (let y = 0, at = 0; y < height; y++)
      for (let x = 0; x < width; x++, at++) if (isWithin(around, (x + 0.5) * scale.x, (y + 0.5) * scale.y)) out[at] = 1;
  }
  return out;
}

function foundYarn(look: Look, { pixels, shape, score, core }: Proposal, picture: Raster, scale: Scale): FoundYarn {
  const mask = maskOf(pixels, look.width);
  const outline = outlineOf(mask, shape.hull, shape.solidity).map(([x, y]): Point => [x * scale.x, y * scale.y]);
  const left = Math.floor(Math.min(...outline.map(([x]) => x)));
  const top = Math.floor(Math.min(...outline.map(([, y]) => y)));
  const right = Math.ceil(Math.max(...outline.map(([x]) => x)));
  const bottom = Math.ceil(Math.max(...outline.map(([, y]) => y)));
  const inner = innerBoxOf(mainPart(core ? maskOf(core, look.width) : mask, look.planes));
  const x = Math.ceil(inner.x * scale.x);
  const y = Math.ceil(inner.y * scale.y);
  return {
    outline,
    box: clipBox(picture, { x: left, y: top, width: right - left, height: bottom - top }),
    inner: clipBox(picture, {
      x,
      y,
      width: Math.max(1, Math.floor((inner.x + inner.width) * scale.x) - x),
      height: Math.max(1, Math.floor((inner.y + inner.height) * scale.y) - y),
    }),
    confidence: score,
  };
}

/** Yarns whose middles lie within the height of another are in its row. */
function inReadingOrder(yarns: readonly FoundYarn[]): FoundYarn[] {
  const middle = ({ box }: FoundYarn): number => box.y + box.height / 2;
  const rows: FoundYarn[][] = [];
  for (const yarn of yarns.toSorted((one, other) => middle(one) - middle(other) || one.box.x - other.box.x)) {
    const row = rows.at(-1);
    const first = row?.[0];
    if (row && first && middle(yarn) < middle(first) + Math.min(first.box.height, yarn.box.height) / 2) row.push(yarn);
    else rows.push([yarn]);
  }
  return rows.flatMap((row) => row.toSorted((one, other) => one.box.x - other.box.x));
}
