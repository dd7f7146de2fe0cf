/** The signs that charts are drawn with, each in a unit square: told apart by shape, not by colour. */

/** Paths in a unit square from the top left; "fill" signs are filled, the others are drawn with a line. */
export const SIGNS: Readonly<Record<string, { readonly path: string; readonly fill: boolean }>> = {
  dot: { path: disc(0.5, 0.5, 0.13), fill: true },
  disc: { path: disc(0.5, 0.5, 0.3), fill: true },
  ring: { path: disc(0.5, 0.5, 0.29), fill: false },
  cross: { path: "M.22 .22L.78 .78M.78 .22L.22 .78", fill: false },
  plus: { path: "M.5 .18V.82M.18 .5H.82", fill: false },
  slash: { path: "M.2 .8L.8 .2", fill: false },
  backslash: { path: "M.2 .2L.8 .8", fill: false },
  bar: { path: "M.5 .15V.85", fill: false },
  dash: { path: "M.2 .5H.8", fill: false },
  triangle: { path: "M.5 .2L.8 .78H.2Z", fill: false },
  wedge: { path: "M.5 .2L.8 .78H.2Z", fill: true },
  inverted: { path: "M.2 .22H.8L.5 .8Z", fill: true },
  square: { path: "M.25 .25H.75V.75H.25Z", fill: false },
  block: { path: "M.22 .22H.78V.78H.22Z", fill: true },
  diamond: { path: "M.5 .17L.83 .5L.5 .83L.17 .5Z", fill: false },
  lozenge: { path: "M.5 .17L.83 .5L.5 .83L.17 .5Z", fill: true },
  tick: { path: "M.2 .25L.5 .78L.8 .25", fill: false },
  star: { path: "M.5 .18V.82M.22 .34L.78 .66M.78 .34L.22 .66", fill: false },
  half: { path: "M.15 .85V.15L.85 .85Z", fill: true },
  corner: { path: "M.28 .2V.76H.76", fill: false },
  equals: { path: "M.2 .38H.8M.2 .62H.8", fill: false },
  hourglass: { path: "M.22 .2H.78L.22 .8H.78Z", fill: false },
};

export const SIGN_NAMES = Object.keys(SIGNS);

function disc(x: number, y: number, radius: number): string {
  return `M${x - radius} ${y}a${radius} ${radius} 0 1 0 ${2 * radius} 0a${radius} ${radius} 0 1 0 ${-2 * radius} 0Z`;
}
