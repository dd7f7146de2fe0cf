/** The letters of an SVG path as runs of points. */
import type { Point } from "../chartGrid.ts";
import { curve } from "../page/affine.ts";

/** As far as it can be read: what follows a mistake is left away, as the standard says. Source: SVG 2, 9.3. */
export function pathOfData(data: string): Point[][] {
  const reader = new Reader(data);
  const runs: Point[][] = [];
  let run: Point[] = [];
  let [here, start]: [Point, Point] = [
    [0, 0],
    [0, 0],
  ];
  let pull: Point | null = null;
  let last = "";
  const add = (...points: Point[]): void => {
    if (run.length === 0) {
      run = [here];
      runs.push(run);
    }
    run.push(...points);
    here = points.at(-1)!;
  };
  for (let order = reader.order(""); order !== null; order = reader.order(order)) {
    const upper = order.toUpperCase();
    const from: Point = order === upper ? [0, 0] : here;
    const numbers = reader.numbers(upper);
    if (numbers === null) break;
    const point = (at: number): Point => [from[0] + numbers[at]!, from[1] + numbers[at + 1]!];
    const mirrored = (kinds: string): Point =>
      pull && kinds.includes(last) ? [2 * here[0] - pull[0], 2 * here[1] - pull[1]] : here;
    let next: Point | null = null;
    if (upper === "M") {
      run = [];
      here = start = point(0);
    } else if (upper === "Z") {
      if (run.length > 0) run.push(run[0]!);
      run = [];
      here = start;
    } else if (upper === "L") add(point(0));
    else if (upper === "H") add([from[0] + numbers[0]!, here[1]]);
    else if (upper === "V") add([here[0], from[1] + numbers[0]!]);
    else if (upper === "C") add(...curve(here, point(0), (next = point(2)), point(4)));
    else if (upper === "S") add(...curve(here, mirrored("CS"), (next = point(0)), point(2)));
    else if (upper === "Q" || upper === "T") {
      const bend: Point = upper === "Q" ? point(0) : mirrored("QT");
      const to = point(upper === "Q" ? 2 : 0);
      const third = (end: Point): Point => [(end[0] + 2 * bend[0]) / 3, (end[1] + 2 * bend[1]) / 3];
      next = bend;
      add(...curve(here, third(here), third(to), to));
    } else if (upper === "A") add(...arc(here, numbers, point(5)));
    [pull, last] = [next, upper];
  }
  return runs.filter(({ length }) => length > 1);
}

/** How many numbers each order takes. */
const TAKES: Readonly<Record<string, number>> = { M: 2, L: 2, H: 1, V: 1, C: 6, S: 4, Q: 4, T: 2, A: 7, Z: 0 };

class Reader {
  private readonly data: string;
  private at = 0;
  constructor(data: string) {
    this.data = data;
  }

  /** The next order's letter; the one before goes on where numbers follow. Null at the end. */
  order(before: string): string | null {
    this.skip();
    const letter = this.data[this.at];
    if (letter === undefined) return null;
    if (/[a-zA-Z]/.test(letter)) {
      this.at++;
      return TAKES[letter.toUpperCase()] === undefined ? null : letter;
    }
    if (before === "" || before.toUpperCase() === "Z") return null;
    return before === "M" ? "L" : before === "m" ? "l" : before;
  }

  numbers(order: string): number[] | null {
    const found: number[] = [];
    for (let index = 0; index < TAKES[order]!; index++) {
      this.skip();
      // The flags of an arc may stand without a space between them.
      const pattern = order === "A" && (index === 3 || index === 4) ? FLAG : NUMBER;
      pattern.lastIndex = this.at;
      const match = pattern.exec(this.data);
      if (!match) return null;
      this.at += match[0].length;
      found.push(Number(match[0]));
    }
    return found;
  }

  private skip(): void {
    while (/[\s,]/.test(this.data[this.at] ?? "x")) this.at++;
  }
}

const NUMBER = /[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?/y;
const FLAG = /[01]/y;

/** Source: SVG 2, appendix B.2.4 (from end points to a centre). */
function arc(from: Point, numbers: readonly number[], to: Point): Point[] {
  let [rx, ry] = [Math.abs(numbers[0]!), Math.abs(numbers[1]!)];
  const angle = (numbers[2]! * Math.PI) / 180;
  if (rx === 0 || ry === 0 || (from[0] === to[0] && from[1] === to[1])) return [to];
  const [cosine, sine] = [Math.cos(angle), Math.sin(angle)];
  const [dx, dy] = [(from[0] - to[0]) / 2, (from[1] - to[1]) / 2];
  const [x, y] = [cosine * dx + sine * dy, cosine * dy - sine * dx];
  const grow = (x * x) / (rx * rx) + (y * y) / (ry * ry);
  if (grow > 1) [rx, ry] = [rx * Math.sqrt(grow), ry * Math.sqrt(grow)];
  const under = rx * rx * ry * ry - rx * rx * y * y - ry * ry * x * x;
  const root =
    Math.sqrt(Math.max(0, under / (rx * rx * y * y + ry * ry * x * x))) * (numbers[3] === numbers[4] ? -1 : 1);
  const [cx, cy] = [(root * rx * y) / ry, (-root * ry * x) / rx];
  const centre: Point = [
    cosine * cx - sine * cy + (from[0] + to[0]) / 2,
    sine * cx + cosine * cy + (from[1] + to[1]) / 2,
  ];
  const start = Math.atan2((y - cy) / ry, (x - cx) / rx);
  let sweep = Math.atan2((-y - cy) / ry, (-x - cx) / rx) - start;
  if (numbers[4] === 0 && sweep > 0) sweep -= 2 * Math.PI;
  if (numbers[4] === 1 && sweep < 0) sweep += 2 * Math.PI;
  const parts = Math.max(2, Math.ceil(Math.abs(sweep) / (Math.PI / 16)));
  return Array.from({ length: parts }, (_, part): Point => {
    if (part === parts - 1) return to;
    const turn = start + (sweep * (part + 1)) / parts;
    const [px, py] = [rx * Math.cos(turn), ry * Math.sin(turn)];
    return [centre[0] + cosine * px - sine * py, centre[1] + sine * px + cosine * py];
  });
}
