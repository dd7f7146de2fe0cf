/** The families of pictures: how charts are drawn, and by what way they came. */
import { deltaE2000 } from "../../../src/colour/difference.ts";
import { hexFromLab, labFromHex, type Lab } from "../../../src/colour/lab.ts";
import type { Chance } from "./chance.ts";
import { UNDAMAGED, type Damage } from "./camera.ts";
import { design, yoke, type Design } from "./designs.ts";
import type { Style } from "./page.ts";
import { SIGN_NAMES } from "./signs.ts";

export type Way = "clean" | "scan" | "photo" | "screen" | "small" | "photocopy" | "glare";
export type Look =
  | "no lines" | "thin lines" | "heavy every 5 or 10" | "white on colour" | "dark on dark" | "page with words" | "signs"
  | "signs on colour" | "yoke" | "several" | "near colours" | "pencil" | "pixels"
  | "coloured lines" | "dashed lines" | "drawn stitches" | "discs" | "gaps" | "letters"; // prettier-ignore
export type Family = `${Way}: ${Look}`;

const of = (way: Way, ...looks: Look[]): Family[] => looks.map((look): Family => `${way}: ${look}`);

/** The reader may be tuned on these. */
export const TUNED: readonly Family[] = [
  ...of("clean", "pixels", "no lines", "thin lines", "heavy every 5 or 10", "white on colour", "dark on dark"),
  ...of("clean", "page with words", "signs", "signs on colour", "yoke", "several", "near colours"),
  ...of("scan", "no lines", "thin lines", "heavy every 5 or 10", "white on colour", "page with words", "signs"),
  ...of("scan", "signs on colour", "yoke", "several", "near colours", "pencil"),
  ...of("photo", "no lines", "thin lines", "heavy every 5 or 10", "white on colour", "dark on dark", "page with words"),
  ...of("photo", "signs", "signs on colour", "yoke", "several", "near colours", "pencil"),
  ...of("screen", "no lines", "thin lines", "white on colour", "page with words", "signs on colour"),
  ...of("small", "no lines", "thin lines", "page with words"),
];

/** Nobody looks at these while tuning: they tell what the reader does with what it was not made for. */
export const HELD_OUT: readonly Family[] = [
  ...of("clean", "coloured lines", "dashed lines", "drawn stitches", "discs", "gaps", "letters"),
  ...of("scan", "coloured lines", "dashed lines", "drawn stitches", "discs", "letters"),
  ...of("photo", "coloured lines", "gaps", "drawn stitches", "discs", "letters"),
  ...of("photocopy", "thin lines", "signs"),
  ...of("glare", "thin lines", "signs"),
];

export interface Scene {
  readonly designs: (Design & { signs: Record<string, string> })[];
  readonly style: Style;
  readonly damage: Damage;
}

export function sceneOf(family: Family, chance: Chance): Scene {
  const [way, look] = family.split(": ") as [Way, Look];
  const { pick, whole, among, odds } = chance;
  const style = styleOf(way, look, chance);
  const count = look === "several" ? whole(2, 3) : 1;
  const rough = way !== "clean";
  const apart = { clean: 6, scan: 8, photo: 11, screen: 11, small: 12, photocopy: 25, glare: 11 }[way];
  const few =
    look === "pencil" || way === "photocopy"
      ? whole(2, 4)
      : pick([2, 2, 3, 3, 4, 5, 6, whole(5, 9), whole(8, rough ? 10 : 20)]);
  const colourCount = look === "signs" || look === "letters" ? whole(2, 8) : few;
  const [width, height] = look === "several" ? [whole(8, 24), whole(6, 16)] : size(chance, way, look);
  let palette: Record<string, string> | null = null;
  const designs: Scene["designs"] = [];
  for (let chart = 0; chart < count; chart++) {
    const shift = chart === 0 ? 0 : whole(-3, 6);
    let made = design(chance, {
      width: Math.max(6, width + shift) === width + shift ? width + shift : width,
      height: chart === 0 ? height : Math.max(6, height + whole(-3, 4)),
      colours: Math.min(colourCount, Math.max(2, Math.floor((width * height) / 3))),
      apart,
      // A few stitches on a plain ground without lines tell no grid.
      kind: pick(["figures", "figures", "mixed", style.lines === "none" ? "figures" : "sparse", "chance"] as const),
    });
    palette ??= fitted(made.palette, look, style, chance, way);
    made = { rows: made.rows, palette: Object.fromEntries(Object.keys(made.palette).map((id) => [id, palette![id]!])) };
    if (look === "yoke") made = yoke(chance, made);
    designs.push({ ...made, signs: {} });
  }
  if (style.signs !== "none") {
    const names =
      look === "letters"
        ? chance.shuffled(Array.from("ABCDEFGHKLMNOPRSTVXYZ"))
        : look === "pencil"
          ? chance.shuffled(["cross", "slash", "dot", "scribble"])
          : chance.shuffled(SIGN_NAMES);
    const ids = [...new Set(designs.flatMap(({ palette: one }) => Object.keys(one)))];
    const bare = style.signs === "white" ? odds(0.75) || look === "pencil" : odds(0.5);
    for (const one of designs)
      one.signs = Object.fromEntries(
        ids.flatMap((id, at) =>
          (bare && at === 0) || !(id in one.palette) ? [] : [[id, names[(at - (bare ? 1 : 0)) % names.length]!]],
        ),
      );
  }
  const cell = Math.min(style.cellWidth, style.cellHeight);
  return {
    designs,
    style,
    damage: damageOf(way, chance, cell, { flat: look === "several" && odds(0.5), tilt: among(0.3, 1) }),
  };
}

function size({ whole, pick, odds }: Chance, way: Way, look: Look): [number, number] {
  if (look === "pixels")
    return pick([
      [whole(4, 60), whole(4, 60)],
      [whole(20, 200), whole(10, 120)],
      [400, 400],
    ] as const) as [number, number];
  if (way === "clean" && look !== "no lines" && look !== "yoke" && odds(0.08)) return [whole(2, 6), whole(2, 6)];
  const least = way === "clean" ? 4 : 7;
  const most = way === "photo" || way === "glare" || way === "screen" ? 44 : 60;
  const usual: [number, number][] = [
    [whole(8, 24), whole(8, 24)],
    [whole(10, most), whole(10, most)],
    [whole(least, 14), whole(least, 40)],
  ];
  if (way === "clean" || way === "scan") usual.push([whole(60, 190), whole(10, 40)]);
  return look === "yoke" ? [whole(20, most), whole(14, most)] : pick(usual);
}

const FONTS = ["DejaVu Sans", "DejaVu Serif", "DejaVu Sans Mono", "DejaVu Sans Condensed", "DejaVu Sans Light"];

function styleOf(way: Way, look: Look, { pick, whole, among, odds }: Chance): Style {
  const range: [number, number] = {
    clean: [5, 30],
    scan: [9, 28],
    photo: [11, 40],
    screen: [11, 34],
    small: [4.5, 8],
    photocopy: [12, 28],
    glare: [12, 36],
  }[way] as [number, number];
  const signed = look === "signs" || look === "signs on colour" || look === "letters";
  let cell = among(
    signed || look === "drawn stitches" || look === "discs"
      ? Math.max(way === "clean" ? 11 : 15, range[0])
      : look === "gaps"
        ? Math.max(8, range[0])
        : range[0],
    range[1],
  );
  if (way === "clean" && odds(0.6)) cell = Math.round(cell);
  const aspect = pick([1, 1, 1, among(0.7, 1), 0.8, among(1, 1.3)]);
  const wordy = look === "page with words" || look === "near colours" || (look !== "pixels" && odds(0.25));
  const pageful = look === "page with words" || (look === "several" && odds(0.6));
  const page =
    look === "dark on dark" && odds(0.5)
      ? pick(["#2a2a2e", "#202020", "#3b3330"])
      : pick(["#ffffff", "#ffffff", "#ffffff", "#fbf7ec", "#f2ede2", "#eef2f5", "#dddddd"]);
  const ink =
    look === "pencil"
      ? pick(["#404048", "#55555c", "#2f3a66"])
      : page.startsWith("#2") || page.startsWith("#3")
        ? "#dddddd"
        : pick(["#000000", "#222222", "#3a2a22", "#444444"]);
  const lined =
    look !== "no lines" &&
    look !== "pixels" &&
    look !== "gaps" &&
    !((look === "yoke" || look === "near colours" || look === "several" || look === "page with words") && odds(0.2));
  const lineColour =
    look === "white on colour"
      ? pick(["#ffffff", page])
      : look === "dark on dark"
        ? pick(["#1a1a1a", "#000000", "#30302c", "#24262e"])
        : look === "coloured lines"
          ? pick(["#c03030", "#3060c0", "#2f8f4f", "#b060b0", "#e08030"])
          : look === "pencil"
            ? pick(["#9fb8d8", "#b8b8b8", "#a8cdb0", "#c8a8a0"])
            : pick(["#000000", "#222222", "#444444", "#777777", "#999999", "#bbbbbb"]);
  const lineWidth = (cell < 8 ? 1 : pick([1, 1, 1.5, among(0.6, 2)])) * (way === "clean" ? 1 : Math.max(1, cell / 18));
  const heavyEvery =
    look === "heavy every 5 or 10"
      ? pick([5, 10, 10, 4])
      : lined && look !== "thin lines" && odds(0.25)
        ? pick([5, 10])
        : 0;
  const margin = (): number => pick([whole(3, 12), whole(10, 40), whole(20, 90)]);
  const edge = way === "clean" && odds(0.2) && !pageful ? 0 : 1;
  return {
    cellWidth: cell,
    cellHeight: way === "clean" && odds(0.7) ? Math.round(cell * aspect) : cell * aspect,
    lines: !lined ? "none" : look === "dashed lines" ? "dashed" : "drawn",
    lineWidth,
    lineColour,
    heavyEvery,
    heavyWidth: Math.min(cell / 3.5, lineWidth * among(1.7, 3)),
    heavyColour: look === "white on colour" || odds(0.7) ? lineColour : pick(["#000000", "#333333", "#802020"]),
    frame: lined && odds(0.2) ? lineWidth * 2 : 0,
    heavyFrom: pick(["right", "right", "left"] as const),
    page,
    ink,
    font: pick(FONTS),
    crisp: way === "clean" && odds(0.5),
    numbers: wordy ? pick(["none", "right", "right", "left", "both", "turns"] as const) : "none",
    numbersEvery: pick([1, 1, 2, 5, 10]),
    columnNumbers: wordy ? pick(["none", "below", "below", "above"] as const) : "none",
    title:
      pageful || (wordy && odds(0.3))
        ? pick(["Station vest, border", "Mast and cloud", "Chart A", "YOKE", "Ridge cuff: chart 2"])
        : null,
    textOver: pageful && odds(0.5) ? whole(1, 5) : 0,
    textUnder: pageful && odds(0.6) ? whole(1, 8) : 0,
    key:
      look === "near colours"
        ? pick(["below", "beside"] as const)
        : wordy || signed
          ? pick(["none", "below", "beside"] as const)
          : "none",
    signs:
      look === "signs" || look === "letters" || look === "pencil"
        ? "white"
        : look === "signs on colour"
          ? "colour"
          : "none",
    signLine: among(0.07, 0.13),
    noStitch: pick(
      lined ? (["grey", "hatched", "blank", "missing", "missing"] as const) : (["grey", "missing"] as const),
    ),
    grey: pick(["#bbbbbb", "#aaaaaa", "#c8c8c8", "#999999"]),
    fill:
      look === "discs"
        ? "disc"
        : look === "drawn stitches"
          ? "stitch"
          : look === "gaps"
            ? "gap"
            : look === "pencil"
              ? "pencil"
              : "whole",
    margins: [margin() * edge, margin() * edge, margin() * edge, margin() * edge],
  };
}

/** Colours that the style can show: on a page of their own colour without a line, or with "no stitch" in their own grey, nobody could read them. */
function fitted(
  palette: Record<string, string>,
  look: Look,
  style: Style,
  { among, odds, pick }: Chance,
  way: Way,
): Record<string, string> {
  const ids = Object.keys(palette);
  if (style.signs === "white") {
    const ground = look === "pencil" || odds(0.6) ? style.page : "#ffffff";
    return Object.fromEntries(ids.map((id) => [id, ground]));
  }
  const shy: string[] = [];
  const bare = style.lines === "none" || look === "white on colour" || look === "discs";
  if (bare) shy.push(style.page);
  if (look === "yoke") shy.push(style.page, style.grey);
  const labs = (): Lab[] => Object.values(made).map((hex) => labFromHex(hex)!);
  const made: Record<string, string> = {};
  const room = way === "clean" ? 6 : 12;
  for (const id of ids) {
    let hex = palette[id]!;
    const dark = look === "dark on dark";
    if (dark) hex = hexFromLab(darker(labFromHex(hex)!, among));
    for (let tries = 0; tries < 300; tries++) {
      const lab = labFromHex(hex)!;
      const clear = shy.every((other) => deltaE2000(labFromHex(other)!, lab) >= 12);
      if (
        clear &&
        (!dark && tries === 0
          ? true
          : labs().every((other) => deltaE2000(other, lab) >= room * (tries < 200 ? 1 : 0.6)))
      )
        break;
      const hue = among(0, 2 * Math.PI);
      const chroma = among(0, 60);
      const fresh: Lab = [among(15, 92), chroma * Math.cos(hue), chroma * Math.sin(hue)];
      hex = hexFromLab(dark ? darker(fresh, among) : fresh);
    }
    made[id] = hex;
  }
  if (look === "near colours" && ids.length > 1) {
    const [near, from] = [ids.at(-1)!, pick(ids.slice(0, -1))];
    const [least, most] = way === "clean" ? [2.5, 4.5] : way === "scan" ? [3.5, 6] : [5, 8];
    const base = labFromHex(made[from]!)!;
    for (let tries = 0; tries < 2000; tries++) {
      const hex = hexFromLab([base[0] + among(-8, 8), base[1] + among(-10, 10), base[2] + among(-10, 10)]);
      const distance = deltaE2000(labFromHex(hex)!, base);
      if (distance < least || distance > most) continue;
      made[near] = hex;
      break;
    }
  }
  return made;
}

const darker = ([lightness, a, b]: Lab, among: Chance["among"]): Lab => [
  Math.min(lightness * 0.45, 44) + among(0, 4),
  a * 0.6,
  b * 0.6,
];

function damageOf(
  way: Way,
  { among, odds, pick, whole, normal }: Chance,
  cell: number,
  { flat, tilt }: { flat: boolean; tilt: number },
): Damage {
  switch (way) {
    case "clean":
      return UNDAMAGED;
    case "small":
      return { ...UNDAMAGED, jpeg: odds(0.7) ? whole(60, 88) : 0 };
    case "scan":
    case "photocopy":
      return {
        ...UNDAMAGED,
        roll: odds(0.25) ? 0 : among(-2, 2),
        around: among(-0.01, 0.04),
        desk: pick([
          [250, 250, 250],
          [225, 225, 222],
          [30, 30, 30],
        ] as const),
        cast: [among(0.86, 1), among(0.86, 0.98), among(0.8, 0.96)],
        gradient: odds(0.4) ? among(0, 0.08) : 0,
        curl: odds(0.2) ? among(0, 0.006) : 0,
        curlAt: "spine",
        blur: among(0.3, Math.min(1, cell / 14)),
        noise: among(0.5, 3),
        jpeg: odds(0.8) ? whole(70, 95) : 0,
        copier: way === "photocopy" ? among(4, 14) : 0,
        greyOnly: way === "photocopy",
      };
    case "photo":
    case "glare":
    case "screen": {
      const warm = among(-0.1, 0.3);
      const bright = among(0.55, 0.98);
      return {
        ...UNDAMAGED,
        roll: normal() * 3,
        pitch: flat ? 0 : among(-22, 22) * tilt,
        yaw: flat ? 0 : among(-16, 16) * tilt,
        curl: way === "screen" || odds(0.4) ? 0 : among(-0.02, 0.025),
        curlAt: pick(["spine", "middle"] as const),
        lens: among(-0.025, 0.025),
        around: among(0.01, 0.2),
        desk:
          way === "screen"
            ? [whole(5, 40), whole(5, 40), whole(5, 40)]
            : pick([
                [150, 110, 75],
                [90, 70, 55],
                [200, 195, 185],
                [60, 64, 70],
                [120, 130, 110],
              ] as const),
        cast: [bright * (1 + warm * 0.35), bright, bright * (1 - warm * 0.7)].map((part) =>
          Math.min(part, 1),
        ) as unknown as [number, number, number],
        gradient: among(0, 0.45),
        vignette: among(0, 0.25),
        shadow: way === "photo" && odds(0.3) ? among(0.2, 0.55) : 0,
        glare: way === "glare" ? among(0.25, 0.8) : 0,
        moire: way === "screen" ? among(0.05, 0.22) : 0,
        blur: among(0.3, Math.min(1.6, cell / 12)),
        noise: among(1, 6),
        jpeg: whole(60, 93),
        most: 4e6,
      };
    }
  }
}
