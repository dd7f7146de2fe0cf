/** From a guessed frame to the whole sheet: patch by patch the grid is found where it is expected, and the sheet laid through all. */
import type { EdgeField } from "./edgeField.ts";
import type { Frame } from "./frame.ts";
import { sheetThrough, type Sheet, type Tie } from "./sheet.ts";

export interface Grown {
  readonly sheet: Sheet;
  readonly ties: readonly Tie[];
  /** The mean clearness of the patches' waves, 0 to 1. */
  readonly clearness: number;
}

/** `most`: patches to stop at. Null where not even the seed holds. */
export function growSheet(field: EdgeField, seed: Frame, most = Infinity): Grown | null {
  const pitch = Math.min(Math.hypot(...seed.along), Math.hypot(...seed.down)) / field.scale;
  const step = stepFor(pitch);
  const tables = tablesFor(step, pitch);
  const first = settled(field, seed, tables);
  if (!first) return null;
  const patches = new Map<string, Patch>();
  const tried = new Map<string, number>();
  const put = (i: number, j: number, found: Found): void => {
    patches.set(`${i},${j}`, { i, j, ...found });
  };
  put(0, 0, first);
  let sheet = sheetOf([...patches.values()], step);
  for (let round = 0; round < MOST_ROUNDS && patches.size < most; round++) {
    const reach = patches.size < 6 ? 1 : 2;
    const wanted = new Set<string>();
    for (const { i, j } of patches.values())
      for (let dj = -reach; dj <= reach; dj++)
        for (let di = -reach; di <= reach; di++) {
          const key = `${i + di},${j + dj}`;
          if (!patches.has(key) && (tried.get(key) ?? 0) < TRIES) wanted.add(key);
        }
    let added = 0;
    for (const key of wanted) {
      const [i, j] = key.split(",").map(Number) as [number, number];
      const frame = frameNear(sheet, patches, i, j, step);
      if (!isInside(field, frame)) continue;
      tried.set(key, (tried.get(key) ?? 0) + 1);
      const found = measured(field, frame, tables);
      if (
        !found ||
        found.clearness < LEAST_CLEARNESS ||
        Math.max(Math.abs(found.off[0]), Math.abs(found.off[1])) > ASTRAY
      )
        continue;
      put(i, j, found);
      added++;
    }
    if (added === 0) break;
    sheet = sheetOf([...patches.values()], step);
  }
  // Once more from where the sheet has them, as early patches were sought with a poorer one.
  for (let round = 0; round < 2; round++) {
    for (const patch of [...patches.values()]) {
      const found = measured(field, frameOn(sheet, patch.i * step, patch.j * step), tables);
      if (found && found.clearness >= LEAST_CLEARNESS) put(patch.i, patch.j, found);
      else if (patches.size > 1) patches.delete(`${patch.i},${patch.j}`);
    }
    if (patches.size === 0) return null;
    sheet = sheetOf([...patches.values()], step);
  }
  const all = [...patches.values()];
  return {
    sheet,
    ties: tiesOf(all, step),
    clearness: all.reduce((sum, { clearness }) => sum + clearness, 0) / all.length,
  };
}

/** The sheet that is drawn near one that was set by hand, over so many columns and rows; where nothing is drawn it stays as it was set. */
export function refinedSheet(field: EdgeField, set: Sheet, columns: number, rows: number): Sheet {
  const middle = frameOn(set, columns / 2, rows / 2);
  const pitch = Math.min(Math.hypot(...middle.along), Math.hypot(...middle.down)) / field.scale;
  const step = Math.max(1, Math.min(stepFor(pitch), columns >> 1, rows >> 1));
  const tables = tablesFor(step, pitch);
  let sheet = set;
  for (let round = 0; round < REFINING_ROUNDS; round++) {
    const ties: Tie[] = [];
    for (let row = step / 2; row < rows; row += step)
      for (let column = step / 2; column < columns; column += step) {
        const [at, under] = [Math.round(column), Math.round(row)];
        const frame = frameOn(sheet, at, under);
        const found = isInside(field, frame) ? measured(field, frame, tables) : null;
        const { x, y } = found && found.clearness >= LEAST_CLEARNESS ? found.frame : frame;
        const weight = found && found.clearness >= LEAST_CLEARNESS ? found.clearness ** 2 : UNSEEN_WEIGHT;
        ties.push({ column: at, row: under, x, y, weight });
      }
    for (const [column, row] of [
      [0, 0],
      [columns, 0],
      [columns, rows],
      [0, rows],
    ] as const) {
      const [x, y] = sheet.at(column, row);
      ties.push({ column, row, x, y, weight: UNSEEN_WEIGHT });
    }
    sheet = sheetThrough(ties);
  }
  return sheet;
}

interface Found {
  readonly frame: Frame;
  /** How far off the grid was, in columns and rows. */
  readonly off: readonly [number, number];
  readonly clearness: number;
}

interface Patch extends Found {
  readonly i: number;
  readonly j: number;
}

const tiesOf = (patches: readonly Patch[], step: number): Tie[] =>
  patches.map(({ i, j, frame, clearness }) => ({
    column: i * step,
    row: j * step,
    x: frame.x,
    y: frame.y,
    weight: clearness * clearness,
  }));

function sheetOf(patches: readonly Patch[], step: number): Sheet {
  const ties = tiesOf(patches, step);
  if (patches.length < 6)
    // Each patch's own steps speak where there are few of them.
    for (const { i, j, frame, clearness } of patches)
      for (const [u, v] of CORNERS)
        ties.push({
          column: i * step + u * step,
          row: j * step + v * step,
          x: frame.x + u * step * frame.along[0] + v * step * frame.down[0],
          y: frame.y + u * step * frame.along[1] + v * step * frame.down[1],
          weight: 0.05 * clearness * clearness,
        });
  return sheetThrough(ties);
}

const CORNERS = [
  [-1, -1],
  [1, -1],
  [1, 1],
  [-1, 1],
] as const;

export function frameOn(sheet: Sheet, column: number, row: number): Frame {
  const [x, y] = sheet.at(column, row);
  const [[left, leftY], [right, rightY]] = [sheet.at(column - 1, row), sheet.at(column + 1, row)];
  const [[upX, up], [downX, down]] = [sheet.at(column, row - 1), sheet.at(column, row + 1)];
  return { x, y, along: [(right - left) / 2, (rightY - leftY) / 2], down: [(downX - upX) / 2, (down - up) / 2] };
}

/** The sheet's frame, shifted as the patches beside it are. */
function frameNear(sheet: Sheet, patches: ReadonlyMap<string, Patch>, i: number, j: number, step: number): Frame {
  const frame = frameOn(sheet, i * step, j * step);
  let [x, y, count] = [0, 0, 0];
  for (let dj = -1; dj <= 1; dj++)
    for (let di = -1; di <= 1; di++) {
      const beside = patches.get(`${i + di},${j + dj}`);
      if (!beside) continue;
      const [atX, atY] = sheet.at((i + di) * step, (j + dj) * step);
      x += beside.frame.x - atX;
      y += beside.frame.y - atY;
      count++;
    }
  return count === 0 ? frame : { ...frame, x: frame.x + x / count, y: frame.y + y / count };
}

function isInside({ width, height, scale }: EdgeField, { x, y }: Frame): boolean {
  return x > 0 && y > 0 && x < width * scale && y < height * scale;
}

/** The seed's own steps may be a little off, which shows as its phase turning from one side to the other. */
function settled(field: EdgeField, seed: Frame, tables: Tables): Found | null {
  let best: Found | null = null;
  let frame = seed;
  for (let round = 0; round < 3; round++) {
    const found = measured(field, frame, tables);
    if (!found) return best;
    if (best && found.clearness < best.clearness) return best;
    best = found;
    frame = found.frame;
    const reach = tables.reach * 0.5;
    const shiftAt = (u: number, v: number): readonly [number, number] | null => {
      const there = {
        ...frame,
        x: frame.x + u * frame.along[0] + v * frame.down[0],
        y: frame.y + u * frame.along[1] + v * frame.down[1],
      };
      return measured(field, there, tables)?.off ?? null;
    };
    const [left, right, up, down] = [shiftAt(-reach, 0), shiftAt(reach, 0), shiftAt(0, -reach), shiftAt(0, reach)];
    const turn = (one: readonly [number, number] | null, other: readonly [number, number] | null): [number, number] =>
      one && other && Math.abs(other[0] - one[0]) < 0.5 && Math.abs(other[1] - one[1]) < 0.5
        ? [(other[0] - one[0]) / (2 * reach), (other[1] - one[1]) / (2 * reach)]
        : [0, 0];
    const [across, along] = [turn(left, right), turn(up, down)];
    const { along: a, down: d } = frame;
    frame = {
      ...frame,
      along: [a[0] * (1 + across[0]) + d[0] * across[1], a[1] * (1 + across[0]) + d[1] * across[1]],
      down: [d[0] * (1 + along[1]) + a[0] * along[0], d[1] * (1 + along[1]) + a[1] * along[0]],
    };
  }
  return best;
}

/** The waves' factors at the places where a patch is looked at, in columns and rows from its middle. */
interface Tables {
  readonly places: Float64Array;
  readonly cosines: Float64Array;
  readonly sines: Float64Array;
  readonly weights: Float64Array;
  /** Columns and rows from the middle to the patch's edge. */
  readonly reach: number;
}

function tablesFor(step: number, pitch: number): Tables {
  const density = Math.max(4, Math.min(8, Math.round(pitch)));
  const reach = step * 0.75;
  const count = 2 * Math.round(reach * density);
  const places = Float64Array.from({ length: count }, (_, at) => (at + 0.5 - count / 2) / density);
  return {
    places,
    cosines: places.map((place) => Math.cos(2 * Math.PI * place)),
    sines: places.map((place) => Math.sin(2 * Math.PI * place)),
    weights: places.map((place) => 0.5 + 0.5 * Math.cos((Math.PI * place) / reach)),
    reach,
  };
}

/** Where the grid is near a frame: the phases of its lines' waves across and down. Null where nothing changes. */
function measured({ width, height, scale, cosine, sine }: EdgeField, frame: Frame, tables: Tables): Found | null {
  const { places, weights } = tables;
  const [ax, ay] = [frame.along[0] / scale, frame.along[1] / scale];
  const [dx, dy] = [frame.down[0] / scale, frame.down[1] / scale];
  // Upright lines run as the steps down do, and change across them; level lines likewise.
  const uprightAngle = 2 * Math.atan2(-dx, dy);
  const levelAngle = 2 * Math.atan2(ax, -ay);
  const [uc, us, lc, ls] = [Math.cos(uprightAngle), Math.sin(uprightAngle), Math.cos(levelAngle), Math.sin(levelAngle)];
  const across = new Float64Array(places.length);
  const along = new Float64Array(places.length);
  const [x0, y0] = [frame.x / scale, frame.y / scale];
  for (let row = 0; row < places.length; row++) {
    const [v, weight] = [places[row]!, weights[row]!];
    for (let column = 0; column < places.length; column++) {
      const u = places[column]!;
      const x = Math.floor(x0 + u * ax + v * dx);
      const y = Math.floor(y0 + u * ay + v * dy);
      if (x < 0 || y < 0 || x >= width || y >= height) continue;
      const at = y * width + x;
      const [c, s] = [cosine[at]!, sine[at]!];
      if (c === 0 && s === 0) continue;
      const upright = c * uc + s * us;
      if (upright > 0) across[column]! += upright * weight;
      const level = c * lc + s * ls;
      if (level > 0) along[row]! += level * weights[column]!;
    }
  }
  const [uOff, uClear] = phaseOf(across, tables);
  const [lOff, lClear] = phaseOf(along, tables);
  if (uClear === 0 || lClear === 0) return null;
  const off = [uOff, lOff] as const;
  const clearness = Math.min(uClear, lClear);
  return {
    frame: {
      ...frame,
      x: frame.x + off[0] * frame.along[0] + off[1] * frame.down[0],
      y: frame.y + off[0] * frame.along[1] + off[1] * frame.down[1],
    },
    off,
    clearness,
  };
}

/** A line of the grid stands above what signs and motifs leave everywhere, so only what is above the usual counts. */
function phaseOf(profile: Float64Array, { cosines, sines, weights }: Tables): [number, number] {
  const sorted = profile.toSorted();
  const usual = sorted[sorted.length >> 1]!;
  let [real, imaginary, sum] = [0, 0, 0];
  for (let at = 0; at < profile.length; at++) {
    const above = (profile[at]! - usual) * weights[at]!;
    if (above <= 0) continue;
    sum += above;
    real += above * cosines[at]!;
    imaginary += above * sines[at]!;
  }
  return sum === 0 ? [0, 0] : [Math.atan2(imaginary, real) / (2 * Math.PI), Math.hypot(real, imaginary) / sum];
}

/** Columns from patch to patch: more where they are small, as many are looked at together. */
const stepFor = (pitch: number): number => (pitch < 4 ? 8 : pitch < 8 ? 6 : 4);

const REFINING_ROUNDS = 3;
const UNSEEN_WEIGHT = 0.01;
const MOST_ROUNDS = 60;
const TRIES = 3;
/** By chance a patch has about 0.2. */
const LEAST_CLEARNESS = 0.4;
/** Columns or rows that the grid may lie from where it is expected. */
const ASTRAY = 0.3;
