/** Gauge (UK: tension): stitches and rows per 10 cm, and the size of one stitch. */

export interface Gauge {
  stitches: number;
  rows: number;
}

export interface StitchSize {
  readonly widthMm: number;
  readonly heightMm: number;
}

export const stitchSizeMm = (gauge: Gauge): StitchSize => ({
  widthMm: 100 / gauge.stitches,
  heightMm: 100 / gauge.rows,
});
