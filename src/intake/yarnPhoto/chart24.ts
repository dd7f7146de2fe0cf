/** The 24-patch colour chart: what its patches are said to be, because a camera is only known by colours that are known. */
import { labFromXyz, xyzFromLab, type Lab } from "../../colour/lab.ts";
import { bradfordAdapt, WHITE_D50, WHITE_D65 } from "../../colour/xyz.ts";

/** Patches across and down; the first patch is the dark brown one, the last row are the greys. */
export const CHART = { columns: 6, rows: 4, firstGrey: 18 } as const;

/**
 * CIELAB, D50, 2°, from the first patch row by row.
 * Source: the maker's reference data for charts made after November 2014, as carried in colour-science/colour 0.4.6
 * (BSD-3-Clause). Older charts differ by about 1 ΔE00.
 */
const NOMINAL_D50: readonly Lab[] = [
  [37.54, 14.37, 14.92],
  [64.66, 19.27, 17.5],
  [49.32, -3.82, -22.54],
  [43.46, -12.74, 22.72],
  [54.94, 9.61, -24.79],
  [70.48, -32.26, -0.37],
  [62.73, 35.83, 56.5],
  [39.43, 10.75, -45.17],
  [50.57, 48.64, 16.67],
  [30.1, 22.54, -20.87],
  [71.77, -24.13, 58.19],
  [71.51, 18.24, 67.37],
  [28.37, 15.42, -49.8],
  [54.38, -39.72, 32.27],
  [42.43, 51.05, 28.62],
  [81.8, 2.67, 80.41],
  [50.63, 51.28, -14.12],
  [49.57, -29.71, -28.32],
  [95.19, -1.03, 2.93],
  [81.29, -0.57, 0.44],
  [66.89, -0.75, -0.06],
  [50.76, -0.13, 0.14],
  [35.63, -0.46, -0.48],
  [20.64, 0.07, -0.46],
];

/** CIELAB, D65, 2°: the same by linear Bradford. */
export const CHART_LABS: readonly Lab[] = NOMINAL_D50.map((lab) =>
  labFromXyz(bradfordAdapt(xyzFromLab(lab, WHITE_D50), WHITE_D50, WHITE_D65)),
);
