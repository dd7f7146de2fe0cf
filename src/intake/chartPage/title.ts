/** What a chart is called: the words above it. */
import type { Box } from "./pieces.ts";
import type { Words } from "./words.ts";

/** The likeliest heading of a chart; `others` are the charts that it must not belong to. */
export function titleOf(chart: Box, words: readonly Words[], others: readonly Box[]): string | null {
  const sizes = words.map(({ size }) => size).sort((one, other) => one - other);
  const usual = sizes[Math.floor(sizes.length / 2)] ?? 1;
  const reach = Math.max(8 * usual, (chart.bottom - chart.top) / 3);
  let best: { text: string; worth: number } | null = null;
  for (const { text, box, size } of words) {
    const away = chart.top - box.bottom;
    if (away < -0.5 * size || away > reach || box.left > chart.right || box.right < chart.left) continue;
    if (!/\p{L}{2}|^\p{L}$/u.test(text) || SMALL_PRINT.test(text)) continue;
    if (
      others.some(
        (other) => other.bottom > box.bottom && other.bottom <= chart.top + 0.5 * size && overlaps(other, chart),
      )
    )
      continue;
    const starts = box.left >= chart.left - 3 * size && box.left <= chart.left + 3 * size;
    const middle = Math.abs((box.left + box.right - chart.left - chart.right) / 2) <= 2 * size;
    const long = text.length > LONG || /[.!?]$/.test(text) ? 1 : 0;
    const worth = size / usual - away / reach - long + (starts || middle ? 0.3 : 0);
    if (worth > (best?.worth ?? 0)) best = { text, worth };
  }
  return best?.text.slice(0, LONGEST) ?? captionOf(chart, words);
}

/** Words right below that call themselves a chart's. */
function captionOf(chart: Box, words: readonly Words[]): string | null {
  const below = words.find(
    ({ text, box, size }) =>
      /^(chart|diagram|figure|fig\.|motif|pattern)\b/i.test(text) &&
      box.top >= chart.bottom - 0.5 * size &&
      box.top - chart.bottom <= 4 * size &&
      box.left <= chart.right &&
      box.right >= chart.left,
  );
  return below?.text.slice(0, LONGEST) ?? null;
}

const overlaps = (one: Box, other: Box): boolean => one.left < other.right && other.left < one.right;

/** What stands beside titles and is none. */
const SMALL_PRINT = /^(rows?|rounds?|rnds?|page|sheet|stitches|sts|key|legend)\b[\s\d–\-.,:of]*$/i;
const LONG = 60;
const LONGEST = 80;
