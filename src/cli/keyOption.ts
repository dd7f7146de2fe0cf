/** What she says of a chart's colours on the command line: "A = #e8e2d2 hoar", "x = rust", "moss = #5d6b3c". */
import { shadeByKeyWords } from "../intake/colourWords.ts";
import type { ReadChart, ReadColour } from "../intake/readChart.ts";
import { findShade } from "../intake/statedShade.ts";
import { hexFromLab } from "../colour/lab.ts";
import { EXIT, Refusal } from "./io.ts";
import { nearestWord } from "./nearest.ts";

/** The charts with those colours named and shaded. Refuses with 64 what is no such word, or names no colour of any chart. */
export function keyedCharts(charts: readonly ReadChart[], words: readonly string[]): ReadChart[] {
  return words.reduce<ReadChart[]>((keyed, word) => withWord(keyed, word), [...charts]);
}

function withWord(charts: readonly ReadChart[], word: string): ReadChart[] {
  const [, written, said] = /^\s*(\S.*?)\s*=\s*(\S.*?)\s*$/.exec(word) ?? [];
  if (written === undefined || said === undefined)
    throw new Refusal(
      EXIT.usage,
      `--key: expected a colour and its shade like "A = #e8e2d2 hoar", found ${JSON.stringify(word)}.`,
    );
  let met = false;
  const keyed = charts.map((chart) => {
    const ids = idsMeant(chart, written);
    if (ids.length > 0) met = true;
    const colours = Object.entries(chart.colours).map(
      ([id, colour]) => [id, ids.includes(id) ? shaded(colour, said) : colour] as const,
    );
    return { ...chart, colours: Object.fromEntries(colours) };
  });
  if (met) return keyed;
  const known = [...new Set(charts.flatMap(callable))];
  const near = nearestWord(written, known);
  throw new Refusal(
    EXIT.usage,
    `--key: expected ${known.join(", ")}, found ${JSON.stringify(written)}.${near ? ` Did you mean ${near}?` : ""}`,
  );
}

/** By the name, else by the sign, else by the letter: a chart of signs has letters only from us. */
function idsMeant({ colours, symbols }: ReadChart, written: string): string[] {
  const ids = Object.keys(colours);
  const named = ids.filter((id) => colours[id]!.name?.toLowerCase() === written.toLowerCase());
  if (named.length > 0) return named;
  const signed = ids.filter((id) => symbols?.[id]?.text === written);
  return signed.length > 0 ? signed : ids.filter((id) => id === written);
}

const callable = ({ colours, symbols }: ReadChart): string[] =>
  Object.entries(colours).map(([id, { name }]) => name ?? symbols?.[id]?.text ?? id);

function shaded(colour: ReadColour, said: string): ReadColour {
  const stated = findShade(said);
  const words = (stated ? stated.rest : said).replace(/\s+/g, " ").trim();
  const name = words === "" ? colour.name : words;
  const named = name === undefined ? {} : { name };
  if (stated) return { hex: stated.hex, lab: stated.lab, ...named };
  const meant = colour.assumed ? shadeByKeyWords(words) : null;
  if (!meant) return { ...colour, ...named };
  return { hex: hexFromLab(meant.lab), lab: meant.lab, uncertainty: meant.uncertainty, ...named, assumed: true };
}
