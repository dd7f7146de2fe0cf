/** Invented charts with what a knitter sees in them, determined by hand: bands, kinds, repeats, lines of mirroring, and how bands lie over one another. */
import table from "./tables/motifs.json" with { type: "json" };
import type { Chart } from "../src/chart/chart.ts";

export interface BuiltChart {
  readonly name: string;
  readonly chart: Pick<Chart, "rows" | "bands">;
  /** "rows kind repeat: axes", lowest first; plain bands are left out. */
  readonly bands: readonly string[];
  /** "meeting off by", of the bands above, lowest first; a meeting alone where the motif has two middles that are alike. */
  readonly meets: readonly string[];
}

/** A motif of the table, ground A, moved left by some stitches and repeated to a width. Its axes move on by as many columns. */
function motif(id: string, left = 0, width = 24, colours = "AB"): string[] {
  const { rows } = table.motifs.find((entry) => entry.id === id)!;
  return drawn(rows, left, width, colours);
}

function drawn(rows: readonly string[], left = 0, width = 24, [ground, figure] = "AB"): string[] {
  return rows.map((row) => {
    const moved = row.slice(left) + row.slice(0, left);
    return moved
      .repeat(Math.ceil(width / row.length))
      .slice(0, width)
      .replaceAll(".", ground!)
      .replaceAll("#", figure!);
  });
}

/** Twelve wide, five high; its middle in the sixth column from the left, which is column 7, and its gap in column 1. */
const TREE = [".....#......", "....###.....", "...#####....", "....###.....", ".....#......"];
/** Leans and is nothing turned: no axis either way. */
const FLAG = ["##.#....", "#.......", "#..#...."];

const plain = (width = 24, colour = "A"): string[] => [colour.repeat(width)];
/** The first block at the top. */
const stack = (...blocks: readonly string[][]): Pick<Chart, "rows"> => ({ rows: blocks.flat() });

/**
 * By hand: a stitch i-th from the left, from 0, of a repeat r lies in the columns r − i, a repeat apart; of diamond-8 (axes 3 and 7 in the
 * table) these are 5, its middle, and 1. Moved left by n they are 5 + n and 1 + n.
 */
export const BUILT_CHARTS: readonly BuiltChart[] = [
  {
    name: "diamonds over diamonds",
    chart: stack(motif("diamond-8"), plain(), motif("diamond-8")),
    bands: ["1-7 motif 8: 1 5", "9-15 motif 8: 1 5"],
    meets: ["lined up 0"],
  },
  {
    name: "diamonds set off by half",
    chart: stack(motif("diamond-8", 4), plain(), motif("diamond-8")),
    bands: ["1-7 motif 8: 1 5", "9-15 motif 8: 1 5"],
    meets: ["half a repeat 4"],
  },
  {
    name: "diamonds one stitch to the left",
    chart: stack(motif("diamond-8", 1), plain(), motif("diamond-8")),
    bands: ["1-7 motif 8: 1 5", "9-15 motif 8: 2 6"],
    meets: ["shifted 1"],
  },
  {
    name: "diamonds one stitch to the right",
    chart: stack(motif("diamond-8", 7), plain(), motif("diamond-8")),
    bands: ["1-7 motif 8: 1 5", "9-15 motif 8: 4 8"],
    meets: ["shifted -1"],
  },
  {
    name: "diamonds a stitch from half",
    chart: stack(motif("diamond-8", 3), plain(), motif("diamond-8")),
    bands: ["1-7 motif 8: 1 5", "9-15 motif 8: 4 8"],
    meets: ["shifted 3"],
  },
  {
    name: "diamonds that stand on one another are one filling",
    chart: stack(motif("diamond-8"), motif("diamond-8")),
    bands: ["1-14 motif 8: 1 5"],
    meets: [],
  },
  {
    name: "trees over trees, half a repeat on",
    chart: stack(drawn(TREE, 6), plain(), drawn(TREE)),
    bands: ["1-5 motif 12: 1 7", "7-11 motif 12: 1 7"],
    meets: ["half a repeat 6"],
  },
  {
    name: "12 over 8 drift and come within two stitches",
    chart: stack(drawn(TREE), plain(), motif("diamond-8")),
    bands: ["1-7 motif 8: 1 5", "9-13 motif 12: 1 7"],
    meets: ["drifting 2"],
  },
  {
    name: "12 over 8 drift and meet once in 24",
    chart: stack(drawn(TREE, 2), plain(), motif("diamond-8")),
    bands: ["1-7 motif 8: 1 5", "9-13 motif 12: 3 9"],
    meets: ["drifting 0"],
  },
  {
    name: "8 over 16: the smaller goes into the larger",
    chart: stack(motif("diamond-8", 0, 48), plain(48), motif("lozenge-cross-16", 0, 48)),
    bands: ["1-15 motif 16: 8 16", "17-23 motif 8: 1 5"],
    meets: ["shifted -3"],
  },
  {
    name: "8 over 16, lined up",
    chart: stack(motif("diamond-8", 3, 48), plain(48), motif("lozenge-cross-16", 0, 48)),
    bands: ["1-15 motif 16: 8 16", "17-23 motif 8: 4 8"],
    meets: ["lined up 0"],
  },
  {
    name: "16 over 24 drift",
    chart: stack(motif("star-24", 0, 48), plain(48), motif("lozenge-cross-16", 0, 48)),
    bands: ["1-15 motif 16: 8 16", "17-37 motif 24: 12 24"],
    // The star's body is about its stitch 12; 8 and 16 are both four from a multiple of the shared 8 on.
    meets: ["drifting 4"],
  },
  {
    name: "a line of pairs has its middle between two stitches",
    chart: stack(motif("pairs-4"), plain(), motif("diamond-8")),
    bands: ["1-7 motif 8: 1 5", "9-9 line 4: 1.5 3.5"],
    meets: ["half a stitch -1.5"],
  },
  {
    name: "so have checks, twice alike",
    chart: stack(motif("check-4"), plain(), motif("diamond-8")),
    bands: ["1-7 motif 8: 1 5", "9-12 motif 4: 1.5 3.5"],
    meets: ["half a stitch"],
  },
  {
    name: "two stitches are as near to half of five as one comes",
    chart: stack(motif("plus-5", 2, 20), plain(20), motif("plus-5", 0, 20)),
    bands: ["1-3 motif 5: 3 5.5", "5-7 motif 5: 2.5 5"],
    meets: ["half a repeat 2"],
  },
  {
    name: "plus over plus",
    chart: stack(motif("plus-5", 0, 20), plain(20), motif("plus-5", 0, 20)),
    bands: ["1-3 motif 5: 3 5.5", "5-7 motif 5: 3 5.5"],
    meets: ["lined up 0"],
  },
  {
    name: "seeds under diamonds, three stitches beside their middle",
    chart: stack(motif("diamond-8"), plain(), drawn(["#......."])),
    bands: ["1-1 seeding 8: 4 8", "3-9 motif 8: 1 5"],
    meets: ["shifted -3"],
  },
  {
    name: "seeds under the middle of diamonds",
    chart: stack(motif("diamond-8", 3), plain(), drawn(["#......."])),
    bands: ["1-1 seeding 8: 4 8", "3-9 motif 8: 4 8"],
    meets: ["lined up 0"],
  },
  {
    name: "seeds by turns",
    chart: stack(plain(), drawn(["#....."]), plain(), plain(), drawn(["#....."], 3), plain()),
    bands: ["2-2 seeding 6: 3 6", "5-5 seeding 6: 3 6"],
    meets: ["half a repeat 3"],
  },
  {
    name: "a line of dashes under diamonds",
    chart: stack(motif("diamond-8"), plain(), motif("dash-1row-2")),
    bands: ["1-1 line 2: 1 2", "3-9 motif 8: 1 5"],
    meets: ["half a repeat 1"],
  },
  {
    name: "twill leans",
    chart: stack(motif("twill-3"), plain(), motif("twill-3", 1)),
    bands: ["1-3 motif 3: ", "5-7 motif 3: "],
    meets: ["leaning"],
  },
  {
    name: "a flag leans over diamonds",
    chart: stack(drawn(FLAG), plain(), motif("diamond-8")),
    bands: ["1-7 motif 8: 1 5", "9-11 motif 8: "],
    meets: ["leaning"],
  },
  {
    name: "three diamonds and a stitch to balance the edges",
    chart: stack(motif("diamond-8", 0, 25)),
    // The left edge begins a fourth diamond: in 25 columns the middle of one is the fourth from the left, column 22, and 22 − 16 = 6.
    bands: ["1-7 motif 8+1: 2 6"],
    meets: [],
  },
  {
    name: "two waves and a stitch",
    chart: stack(motif("wave-6", 0, 13)),
    // The stitches 0 and 3 from the left are columns 13 and 10: 1 and 4 of the first repeat.
    bands: ["1-5 motif 6+1: 1 4"],
    meets: [],
  },
  {
    name: "a repeat and a quarter is seen once",
    chart: stack(motif("diamond-8", 0, 10)),
    // As one figure ten wide: the rows read the same from both ends only about the middle of their 7 left stitches, which is no axis of ten.
    bands: ["1-7 motif 10: "],
    meets: [],
  },
  {
    name: "diamonds on waves without a plain row between",
    chart: stack(motif("diamond-8"), motif("wave-6")),
    bands: ["1-5 motif 6: 3 6", "6-12 motif 8: 1 5"],
    meets: ["drifting"],
  },
  {
    name: "diamonds on lozenges in the same two colours",
    chart: stack(motif("diamond-8", 3, 48), motif("lozenge-cross-16", 0, 48)),
    bands: ["1-15 motif 16: 8 16", "16-22 motif 8: 4 8"],
    meets: ["lined up 0"],
  },
  {
    name: "rows of pairs between trees and diamonds stay with one of them: a limit, where she parts them by her word",
    chart: stack(drawn(TREE), motif("pairs-4"), motif("pairs-4"), motif("pairs-4"), motif("diamond-8")),
    // Pairs (4) go into both; they are rows alike, no motif of their own, and stay with the diamonds (8), which are read first.
    bands: ["1-10 motif 8: ", "11-15 motif 12: 1 7"],
    meets: ["leaning"],
  },
  {
    name: "a star with a plain row at its heart",
    chart: stack(plain(), motif("star-24"), plain()),
    bands: ["2-22 motif 24: 12 24"],
    meets: [],
  },
  {
    name: "a yoke's wedge between places without a stitch",
    chart: stack(["---ABA---", "--AABAA--", "-AABBBAA-", "AAAABAAAA"]),
    bands: ["1-4 motif 9: 5 9.5"],
    meets: [],
  },
  { name: "plain rows in two colours", chart: stack(plain(), plain(24, "B"), plain()), bands: [], meets: [] },
  {
    name: "her word: diamonds lean, and the upper ones mirror about their gaps",
    chart: {
      ...stack(motif("diamond-8"), plain(), motif("diamond-8")),
      bands: [
        { rows: [1, 7], axis: 5 },
        { rows: [9, 15], axis: 1 },
      ],
    },
    bands: ["1-7 motif 8: 1 5", "9-15 motif 8: 1 5"],
    meets: ["half a repeat 4"],
  },
  {
    name: "her word: it leans",
    chart: { ...stack(motif("diamond-8"), plain(), motif("diamond-8")), bands: [{ rows: [9, 15], axis: null }] },
    bands: ["1-7 motif 8: 1 5", "9-15 motif 8: "],
    meets: ["leaning"],
  },
  {
    name: "her word: two diamonds are a repeat",
    chart: { ...stack(motif("diamond-8"), plain(), drawn(TREE)), bands: [{ rows: [7, 13], repeat: 16 }] },
    bands: ["1-5 motif 12: 1 7", "7-13 motif 16+8: 1 5 9 13"],
    meets: ["drifting"],
  },
  {
    name: "her word: two bands are one",
    chart: { ...stack(motif("diamond-8"), plain(), motif("diamond-8")), bands: [{ rows: [1, 15] }] },
    bands: ["1-15 motif 8: 1 5"],
    meets: [],
  },
  {
    name: "her word: dashes are seeding",
    chart: { ...stack(motif("dash-1row-2")), bands: [{ rows: [1, 1], seeding: true }] },
    bands: ["1-1 seeding 2: 1 2"],
    meets: [],
  },
];
