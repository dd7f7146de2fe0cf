/**
 * A record of hers (the project, the shelf) as part of a Yjs document: records are maps, lists are arrays, and what has no parts
 * (words, numbers, a Lab triple) is one value. A pure edit is written as the difference between before and after, so that reading
 * back equals the edit and two tabs merge small changes.
 */
import * as Y from "yjs";

type Json = null | boolean | number | string | Json[] | { [key: string]: Json };
type JsonRecord = { [key: string]: Json };

/** Yjs does not promise an order of fields across sessions; a file she keeps under version control should not be shuffled. */
const ORDER = "\u0000order";

/** The record as it stands under its root, or null where nothing has been written yet. */
export function readShared<Kind extends object>(root: Y.Map<unknown>): Kind | null {
  return root.size === 0 ? null : (plainOf(root) as unknown as Kind);
}

/** Makes what is under the root equal the record, touching only what differs. To be called in a transaction. */
export function writeShared(root: Y.Map<unknown>, record: object): void {
  writeRecord(root, record as JsonRecord);
}

function isRecord(value: unknown): value is JsonRecord {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

/** Lists of numbers (a Lab triple, a range of rows) mean something only as a whole, so they are never merged by halves. */
const isAtom = (value: Json): boolean =>
  Array.isArray(value)
    ? value.length > 0 && value.every((part) => typeof part === "number" || (Array.isArray(part) && isAtom(part)))
    : !isRecord(value);

const fieldsOf = (record: JsonRecord): [string, Json][] =>
  Object.entries(record).filter(([, value]) => value !== undefined);

/** A field that a stranger named as our own mark is kept under a longer name. */
const storedKey = (key: string): string => (key.startsWith("\u0000") ? `\u0000${key}` : key);
const plainKey = (key: string): string => (key.startsWith("\u0000") ? key.slice(1) : key);

function sharedFrom(value: Json): unknown {
  if (isAtom(value)) return value;
  if (Array.isArray(value)) {
    const list = new Y.Array<unknown>();
    list.push(value.map(sharedFrom));
    return list;
  }
  const map = new Y.Map<unknown>();
  const fields = fieldsOf(value as JsonRecord);
  for (const [key, part] of fields) map.set(storedKey(key), sharedFrom(part));
  map.set(
    ORDER,
    fields.map(([key]) => key),
  );
  return map;
}

function plainOf(value: unknown): Json {
  if (value instanceof Y.Array) return value.toArray().map(plainOf);
  if (!(value instanceof Y.Map)) return value as Json;
  const parts = new Map(
    [...value.entries()].filter(([key]) => key !== ORDER).map(([key, part]) => [plainKey(key), part]),
  );
  const order = (value.get(ORDER) as string[] | undefined) ?? [];
  const keys = [...new Set([...order.filter((key) => parts.has(key)), ...parts.keys()])];
  return Object.fromEntries(keys.map((key) => [key, plainOf(parts.get(key))]));
}

/** Whether `value` can be written into what is there, instead of replacing it. */
function canWriteInto(there: unknown, value: Json): boolean {
  if (isAtom(value)) return false;
  return Array.isArray(value) ? there instanceof Y.Array : there instanceof Y.Map;
}

function writeInto(there: unknown, value: Json): void {
  if (there instanceof Y.Map) writeRecord(there, value as JsonRecord);
  else writeList(there as Y.Array<unknown>, value as Json[]);
}

function writeRecord(map: Y.Map<unknown>, record: JsonRecord): void {
  const fields = fieldsOf(record);
  const keys = fields.map(([key]) => key);
  const stored = new Set([ORDER, ...keys.map(storedKey)]);
  for (const key of [...map.keys()]) if (!stored.has(key)) map.delete(key);
  for (const [key, value] of fields) {
    const there = map.get(storedKey(key));
    if (canWriteInto(there, value)) writeInto(there, value);
    else if (!map.has(storedKey(key)) || !sameJson(plainOf(there), value)) map.set(storedKey(key), sharedFrom(value));
  }
  if (!sameJson((map.get(ORDER) as Json | undefined) ?? null, keys)) map.set(ORDER, keys);
}

/** What makes two entries of a list the same entry: its id where it has one, else all of it. */
function keyOf(value: Json): string {
  return isRecord(value) && typeof value.id === "string" ? `id ${value.id}` : `value ${JSON.stringify(value)}`;
}

function writeList(list: Y.Array<unknown>, values: Json[]): void {
  const before = list.toArray().map(plainOf);
  const beforeKeys = before.map(keyOf);
  const keys = values.map(keyOf);
  let start = 0;
  while (start < keys.length && start < beforeKeys.length && keys[start] === beforeKeys[start]) start++;
  let end = 0;
  const shorter = Math.min(keys.length, beforeKeys.length) - start;
  while (end < shorter && keys[keys.length - 1 - end] === beforeKeys[beforeKeys.length - 1 - end]) end++;
  for (let i = 0; i < start; i++) writeEntry(list, i, before[i]!, values[i]!);
  for (let i = 1; i <= end; i++)
    writeEntry(list, list.length - i, before[before.length - i]!, values[values.length - i]!);
  const removed = before.length - start - end;
  const added = values.slice(start, values.length - end);
  if (removed > 0) list.delete(start, removed);
  if (added.length > 0) list.insert(start, added.map(sharedFrom));
}

function writeEntry(list: Y.Array<unknown>, index: number, before: Json, value: Json): void {
  if (sameJson(before, value)) return;
  const there = list.get(index);
  if (canWriteInto(there, value)) return writeInto(there, value);
  list.delete(index, 1);
  list.insert(index, [sharedFrom(value)]);
}

/** Equal in what they hold and in the order of their fields. */
function sameJson(a: Json, b: Json): boolean {
  if (Object.is(a, b)) return true;
  if (Array.isArray(a)) return Array.isArray(b) && a.length === b.length && a.every((part, i) => sameJson(part, b[i]!));
  if (!isRecord(a) || !isRecord(b)) return false;
  const [fieldsA, fieldsB] = [fieldsOf(a), fieldsOf(b)];
  return (
    fieldsA.length === fieldsB.length &&
    fieldsA.every(([key, value], i) => fieldsB[i]![0] === key && sameJson(value, fieldsB[i]![1]))
  );
}
