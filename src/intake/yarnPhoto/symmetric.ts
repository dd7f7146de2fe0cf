/** Small symmetric matrices without a direction that has no weight, by Cholesky's factor, as fits leave them. */

/** The solution of matrix · x = sides with the diagonal made larger by a part of it. */
export function solveDamped(matrix: readonly Float64Array[], sides: Float64Array, damping: number): Float64Array {
  const rows = matrix.map((row, at) => {
    const damped = row.slice();
    damped[at]! *= 1 + damping;
    return damped;
  });
  const factor = lowerOf(rows);
  return upwards(factor, downwards(factor, sides));
}

export function inverse(matrix: readonly Float64Array[]): Float64Array[] {
  const factor = lowerOf(matrix);
  return matrix.map((_, at) => {
    const unit = new Float64Array(matrix.length);
    unit[at] = 1;
    return upwards(factor, downwards(factor, unit));
  });
}

/** Cholesky's factor of a matrix that is symmetric and has no direction without weight. */
export function lowerOf(matrix: readonly ArrayLike<number>[]): Float64Array[] {
  const factor = matrix.map(() => new Float64Array(matrix.length));
  for (let row = 0; row < matrix.length; row++)
    for (let column = 0; column <= row; column++) {
      let sum = matrix[row]![column]!;
      for (let at = 0; at < column; at++) sum -= factor[row]![at]! * factor[column]![at]!;
      factor[row]![column] = row === column ? Math.sqrt(Math.max(1e-12, sum)) : sum / factor[column]![column]!;
    }
  return factor;
}

function downwards(factor: readonly Float64Array[], sides: Float64Array): Float64Array {
  const solved = new Float64Array(sides.length);
  for (let row = 0; row < sides.length; row++) {
    let sum = sides[row]!;
    for (let at = 0; at < row; at++) sum -= factor[row]![at]! * solved[at]!;
    solved[row] = sum / factor[row]![row]!;
  }
  return solved;
}

function upwards(factor: readonly Float64Array[], sides: Float64Array): Float64Array {
  const solved = new Float64Array(sides.length);
  for (let row = sides.length - 1; row >= 0; row--) {
    let sum = sides[row]!;
    for (let at = row + 1; at < sides.length; at++) sum -= factor[at]![row]! * solved[at]!;
    solved[row] = sum / factor[row]![row]!;
  }
  return solved;
}

export const dot = (one: Float64Array, other: Float64Array): number => {
  let sum = 0;
  for (let at = 0; at < one.length; at++) sum += one[at]! * other[at]!;
  return sum;
};

export const timesVector = (matrix: readonly Float64Array[], vector: Float64Array): Float64Array =>
  Float64Array.from(matrix, (row) => dot(row, vector));
