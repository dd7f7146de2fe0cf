/** What is on the charts of the invented world: figures tiled, stacked and recoloured, and chance; with the colours they are worked in. */
import { readFileSync } from "node:fs";
import { deltaE2000 } from "../../../src/colour/difference.ts";
import { hexFromLab, labFromHex, type Lab } from "../../../src/colour/lab.ts";
import type { Chance } from "./chance.ts";

export interface Design {
  /** Top row first; "-" is no stitch. */
  rows: string[];
  /** "#rrggbb" of every id in use. */
  palette: Record<string, string>;
}

export interface Wish {
  width: number;
  height: number;
  colours: number;
  /** Least ΔE00 between two colours. */
  apart: number;
  /** "figures": bands of motifs; "mixed": now and then chance; "sparse": large plain grounds with a few stitches. */
  kind: "figures" | "mixed" | "sparse" | "chance";
}

const IDS = "PQRSTUVWXYZabcdefghijklmnop";
const MOTIFS = (
  JSON.parse(readFileSync(new URL("../../tables/motifs.json", import.meta.url), "utf8")) as {
    motifs: { rows: string[]; width: number }[];
  }
).motifs;

export function design(chance: Chance, wish: Wish): Design {
  const ids = Array.from(IDS).slice(0, wish.colours);
  const rows = fillRows(chance, ids, wish);
  useAll(chance, rows, ids);
  const palette = colours(chance, ids, wish.apart);
  return { rows: rows.map((row) => row.join("")), palette };
}

function fillRows(chance: Chance, ids: readonly string[], { width, height, kind }: Wish): string[][] {
  const { whole, pick, odds, shuffled } = chance;
  if (kind === "chance") return Array.from({ length: height }, () => Array.from({ length: width }, () => pick(ids)));
  if (kind === "sparse") {
    const ground = ids[0]!;
    const part = chance.among(0.03, 0.15);
    return Array.from({ length: height }, () => Array.from({ length: width }, () => (odds(part) ? pick(ids) : ground)));
  }
  const rows: string[][] = [];
  while (rows.length < height) {
    const [ground, pattern, other] = [...shuffled(ids), ...ids] as [string, string, string];
    if (kind === "mixed" && odds(0.25)) {
      for (let row = whole(1, 5); row > 0; row--) rows.push(Array.from({ length: width }, () => pick(ids)));
      continue;
    }
    if (odds(0.3)) for (let row = whole(1, 2); row > 0; row--) rows.push(Array.from({ length: width }, () => ground));
    const motif = pick(MOTIFS);
    const start = whole(0, motif.width - 1);
    const shaded = odds(0.4);
    for (const [index, text] of motif.rows.entries())
      rows.push(
        Array.from({ length: width }, (_, x) =>
          text[(x + start) % motif.width] === "#"
            ? shaded && index >= motif.rows.length / 2
              ? other
              : pattern
            : ground,
        ),
      );
  }
  return rows.slice(0, height);
}

/** Every colour is met once at least. */
function useAll({ whole }: Chance, rows: string[][], ids: readonly string[]): void {
  const missing = ids.filter((id) => !rows.some((row) => row.includes(id)));
  const taken = new Set<string>();
  for (const id of missing) {
    for (let tries = 0; tries < 50; tries++) {
      const [y, x] = [whole(0, rows.length - 1), whole(0, rows[0]!.length - 1)];
      if (taken.has(`${y},${x}`)) continue;
      taken.add(`${y},${x}`);
      rows[y]![x] = id;
      break;
    }
  }
}

/** Any colours that a screen shows and yarn has, so far from each other at least. */
export function colours({ among, odds }: Chance, ids: readonly string[], apart: number): Record<string, string> {
  const taken: Lab[] = [];
  const palette: Record<string, string> = {};
  for (const id of ids) {
    let hex = "#808080";
    let lab: Lab = [50, 0, 0];
    for (let tries = 0; tries < 400; tries++) {
      const chroma = odds(0.35) ? among(0, 12) : among(8, 70);
      const hue = among(0, 2 * Math.PI);
      hex = hexFromLab([among(12, 97), chroma * Math.cos(hue), chroma * Math.sin(hue)]);
      lab = labFromHex(hex)!;
      // With many colours there is not always room for all of them so far apart.
      const room = apart * (tries < 200 ? 1 : 0.6);
      if (taken.every((other) => deltaE2000(other, lab) >= room)) break;
    }
    taken.push(lab);
    palette[id] = hex;
  }
  return palette;
}

/** The same design, narrowing from the bottom to the top as a yoke does: what is gone is "-". */
export function yoke({ whole, odds, pick, among }: Chance, { rows, palette }: Design): Design {
  const width = rows[0]!.length;
  const height = rows.length;
  const blank = rows.map((row) => Array.from(row));
  if (odds(0.5)) {
    // Steps at both sides.
    const step = Math.max(1, Math.floor(height / whole(3, 7)));
    const most = Math.floor(width * among(0.15, 0.4));
    const steps = Math.floor((height - 1) / step);
    for (let y = 0; y < height; y++) {
      const cut = Math.round((most * Math.floor((height - 1 - y) / step)) / Math.max(1, steps));
      for (let x = 0; x < cut; x++) blank[y]![x] = blank[y]![width - 1 - x] = "-";
    }
  } else {
    // Columns that end inside: a decrease leaves a hole above it.
    const period = pick([6, 8, 10, 12].filter((one) => one <= width));
    if (period === undefined) return { rows, palette };
    let from = whole(Math.ceil(height * 0.4), height - 1);
    for (let column = whole(0, 2); column < Math.ceil(period / 2) && from > 1; column++) {
      for (let x = column; x < width; x += period) for (let y = 0; y < from; y++) blank[y]![x] = "-";
      from -= whole(2, 6);
    }
  }
  const left = new Set(blank.flat());
  return {
    rows: blank.map((row) => row.join("")),
    palette: Object.fromEntries(Object.entries(palette).filter(([id]) => left.has(id))),
  };
}
