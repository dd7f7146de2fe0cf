/** Our own mistakes: what must be true unless the program itself is wrong. Bad input is never asserted, it is a Problem. */

export function assert(condition: unknown, message: string): asserts condition {
  if (!condition) throw new Error(`Our own mistake: ${message}`);
}

/** Closes a switch over a union, so that a new member is a compile error. */
export function unreachable(value: never): never {
  throw new Error(`Our own mistake: unexpected ${String(value)}`);
}
