/** Steps back and forth within a door: what she did to what is in hand, before any of it belongs to her project. */

export interface Past<Value> {
  readonly name: string;
  readonly value: Value;
}

export interface History<Value> {
  readonly now: Value;
  /** The newest last; `value` is what was before the act called `name`. */
  readonly past: readonly Past<Value>[];
  /** The next one last; `value` is what comes of it. */
  readonly future: readonly Past<Value>[];
}

export const begun = <Value>(now: Value): History<Value> => ({ now, past: [], future: [] });

/** An act that changes nothing is no step. */
export function acted<Value>(history: History<Value>, name: string, now: Value): History<Value> {
  if (now === history.now) return history;
  return { now, past: [...history.past, { name, value: history.now }], future: [] };
}

/** What came in, whatever is undone: it is there at every step. */
export const alongside = <Value>(
  { now, past, future }: History<Value>,
  change: (value: Value) => Value,
): History<Value> => ({
  now: change(now),
  past: past.map(({ name, value }) => ({ name, value: change(value) })),
  future: future.map(({ name, value }) => ({ name, value: change(value) })),
});

export function undone<Value>(history: History<Value>): History<Value> {
  const step = history.past.at(-1);
  if (!step) return history;
  return {
    now: step.value,
    past: history.past.slice(0, -1),
    future: [...history.future, { name: step.name, value: history.now }],
  };
}

export function redone<Value>(history: History<Value>): History<Value> {
  const step = history.future.at(-1);
  if (!step) return history;
  return {
    now: step.value,
    past: [...history.past, { name: step.name, value: history.now }],
    future: history.future.slice(0, -1),
  };
}
