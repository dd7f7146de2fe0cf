/** What stands at a place of a record, short enough for a sentence. */
export function foundWords(value: unknown): string {
  if (value === undefined) return "nothing";
  if (Array.isArray(value)) return value.length === 0 ? "an empty list" : `a list of ${value.length}`;
  if (typeof value === "object" && value !== null) return "an object";
  if (typeof value === "number") return String(value);
  const words = JSON.stringify(value) ?? "nothing";
  return words.length > 60 ? `${words.slice(0, 59)}…` : words;
}
