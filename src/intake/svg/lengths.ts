/** Lengths and transforms as SVG writes them. */
import type { Affine } from "../page/affine.ts";
import { composed, IDENTITY, turn } from "../page/affine.ts";

/** In user units (1/96 inch); a percentage is of `whole`. Source: CSS Values and Units Level 3, 6.2. */
export function lengthOf(text: string | undefined, whole: number, otherwise = 0): number {
  const found = /^\s*([+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?)\s*(px|pt|pc|mm|cm|in|em|ex|rem|%|)\s*$/.exec(
    text ?? "",
  );
  if (!found) return otherwise;
  const [value, unit] = [Number(found[1]), found[2]!];
  return unit === "%" ? (value / 100) * whole : value * UNITS[unit]!;
}

const UNITS: Readonly<Record<string, number>> = {
  "": 1,
  px: 1,
  pt: 96 / 72,
  pc: 16,
  mm: 96 / 25.4,
  cm: 96 / 2.54,
  in: 96,
  // The usual size of letters stands for an em.
  em: 16,
  rem: 16,
  ex: 8,
};

/** Source: CSS Transforms Level 1, 8 (the attribute's syntax). What is not understood changes nothing. */
export function transformOf(text: string | undefined): Affine {
  let whole = IDENTITY;
  for (const found of (text ?? "")
    .slice(0, 2000)
    .matchAll(/(matrix|translate|scale|rotate|skewX|skewY)\s*\(([^)]*)\)/g)) {
    const numbers = found[2]!
      .split(/[\s,]+/)
      .filter(Boolean)
      .map((part) => Number.parseFloat(part));
    if (numbers.length === 0 || !numbers.every(Number.isFinite)) continue;
    whole = composed(whole, step(found[1]!, numbers));
  }
  return whole;
}

function step(name: string, [first = 0, second, third, ...rest]: readonly number[]): Affine {
  switch (name) {
    case "matrix":
      return rest.length >= 3 ? [first, second!, third!, rest[0]!, rest[1]!, rest[2]!] : IDENTITY;
    case "translate":
      return [1, 0, 0, 1, first, second ?? 0];
    case "scale":
      return [first, 0, 0, second ?? first, 0, 0];
    case "rotate": {
      const [x, y] = [second ?? 0, third ?? 0];
      return composed([1, 0, 0, 1, x, y], composed(turn(first), [1, 0, 0, 1, -x, -y]));
    }
    case "skewX":
      return [1, 0, Math.tan((first * Math.PI) / 180), 1, 0, 0];
    default:
      return [1, Math.tan((first * Math.PI) / 180), 0, 1, 0, 0];
  }
}

export interface ViewBox {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export function viewBoxOf(text: string | undefined): ViewBox | null {
  const [x, y, width, height] = (text ?? "")
    .trim()
    .split(/[\s,]+/)
    .map(Number) as [number, number, number, number];
  return [x, y, width, height].every(Number.isFinite) && width > 0 && height > 0 ? { x, y, width, height } : null;
}

/** Takes a view box into a place of that size: as large as goes, in its middle, or to its edges where "none" is said. */
export function fitted(
  { x, y, width, height }: ViewBox,
  wide: number,
  high: number,
  aspect: string | undefined,
): Affine {
  if (/^\s*none/.test(aspect ?? ""))
    return [wide / width, 0, 0, high / height, (-x * wide) / width, (-y * high) / height];
  const least = Math.min(wide / width, high / height);
  const scale = /slice/.test(aspect ?? "") ? Math.max(wide / width, high / height) : least;
  const part = (side: string): number =>
    aspect?.includes(`${side}Min`) ? 0 : aspect?.includes(`${side}Max`) ? 1 : 0.5;
  return [
    scale,
    0,
    0,
    scale,
    (wide - width * scale) * part("x") - x * scale,
    (high - height * scale) * part("Y") - y * scale,
  ];
}
