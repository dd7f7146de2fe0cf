/** A grid near one of its crossings, as if it were flat: the crossing and the steps to the next ones. */
export interface Frame {
  /** Pixels of the picture. */
  readonly x: number;
  readonly y: number;
  /** To the next column; to the next row below. */
  readonly along: readonly [number, number];
  readonly down: readonly [number, number];
}
