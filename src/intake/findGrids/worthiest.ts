/** Where charts lie among cells that speak for one or against. */
export interface Box {
  readonly left: number;
  readonly top: number;
  readonly columns: number;
  readonly rows: number;
}

/** Boxes that do not touch, the worthiest first; `least`: what each is worth at least. */
export function chartBoxes(worth: Float64Array, columns: number, rows: number, least: number): Box[] {
  const left = worth.slice();
  const boxes: Box[] = [];
  while (boxes.length < MOST_BOXES) {
    const box = worthiestChart(left, columns, rows, least);
    if (!box) return boxes;
    boxes.push(box);
    // Nor does another chart touch it.
    for (let row = Math.max(0, box.top - 1); row <= Math.min(rows - 1, box.top + box.rows); row++)
      left.fill(
        SPENT,
        row * columns + Math.max(0, box.left - 1),
        row * columns + Math.min(columns, box.left + box.columns + 1),
      );
  }
  return boxes;
}

/** The box that is worth most, a row or column through which hardly anything of a chart goes parting two charts. */
function worthiestChart(worth: Float64Array, columns: number, rows: number, least: number): Box | null {
  let within: Box = { left: 0, top: 0, columns, rows };
  for (;;) {
    const found = worthiest(worth, columns, within);
    if (!found || found.sum < least) return null;
    const part = widestPart(worth, columns, found.box);
    if (part.columns === found.box.columns && part.rows === found.box.rows) return found.box;
    within = part;
  }
}

/** The rectangle of the greatest sum within another: every stretch of its shorter side, and along that the best run. Null where no cell is worth anything. */
function worthiest(worth: Float64Array, columns: number, within: Box): { box: Box; sum: number } | null {
  const isWide = within.columns > within.rows;
  const [short, long] = isWide ? [within.rows, within.columns] : [within.columns, within.rows];
  const [across, along] = isWide ? [columns, 1] : [1, columns];
  const start = within.top * columns + within.left;
  const best = { sum: 0, from: 0, to: 0, first: 0, last: 0 };
  const sums = new Float64Array(long);
  for (let from = 0; from < short; from++) {
    sums.fill(0);
    for (let to = from; to < short; to++) {
      let [sum, first] = [0, 0];
      for (let at = 0, cell = start + to * across; at < long; at++, cell += along) {
        if (sum <= 0) [sum, first] = [0, at];
        sum += sums[at]! += worth[cell]!;
        if (sum > best.sum) Object.assign(best, { sum, from, to, first, last: at });
      }
    }
  }
  if (best.sum <= 0) return null;
  const [thick, wide] = [best.to - best.from + 1, best.last - best.first + 1];
  const box = isWide
    ? { left: within.left + best.first, columns: wide, top: within.top + best.from, rows: thick }
    : { left: within.left + best.from, columns: thick, top: within.top + best.first, rows: wide };
  return { box, sum: best.sum };
}

/** The widest piece between rows and columns in which hardly any cell is a chart's. */
function widestPart(worth: Float64Array, columns: number, box: Box): Box {
  const isGap = (count: number, first: number, step: number): boolean => {
    let [good, sum] = [0, 0];
    for (let index = 0; index < count; index++) {
      const value = worth[first + index * step]!;
      sum += value;
      if (value > CLEARLY) good++;
    }
    return good < Math.max(2, LEAST_SHARE * count) && sum < GAP * count;
  };
  const piece = (count: number, isGapAt: (index: number) => boolean): [number, number] => {
    let [from, most, start] = [0, 0, 0];
    for (let index = 0; index <= count; index++) {
      if (index < count && !isGapAt(index)) continue;
      if (index - start > most) [from, most] = [start, index - start];
      start = index + 1;
    }
    return [from, most];
  };
  const start = box.top * columns + box.left;
  const [top, high] = piece(box.rows, (row) => isGap(box.columns, start + row * columns, 1));
  const [left, wide] = piece(box.columns, (column) => isGap(box.rows, start + column, columns));
  return { left: box.left + left, top: box.top + top, columns: wide, rows: high };
}

const MOST_BOXES = 8;
const SPENT = -1;
/** Worth of a cell that is surely a chart's, and the part of a row's or column's cells that are. */
const CLEARLY = 0.5;
const LEAST_SHARE = 0.08;
/** What a cell of a row or column between two charts is worth at most, in the mean: a plain row of the chart's is worth more. */
const GAP = -0.3;
