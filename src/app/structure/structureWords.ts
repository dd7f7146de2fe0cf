/** How a chart is built, in a knitter's words: bands, what they echo, how they lie, what passes behind them. */
import type { Meeting } from "../../chart/alignment.ts";
import type { BuiltAlignment, BuiltBand, BuiltChart, BuiltRow, ChangedStitch } from "../worker/api.ts";
import { capital, rowsWords } from "../shell/words.ts";

type ColourName = (colour: string) => string;

export const bandName = ({ said, rows }: Pick<BuiltBand, "said" | "rows">): string =>
  said?.name ?? capital(rowsWords(rows));

/** As it stands in the middle of a sentence. */
export const bandCalled = ({ said, rows }: Pick<BuiltBand, "said" | "rows">): string => said?.name ?? rowsWords(rows);

export const stitchesWords = (count: number): string => `${count} ${count === 1 ? "stitch" : "stitches"}`;

export const listWords = (names: readonly string[]): string =>
  names.length < 2 ? names.join("") : `${names.slice(0, -1).join(", ")} and ${names.at(-1)}`;

const KINDS = { plain: "plain", seeding: "seeding", line: "a line of dashes", motif: "a motif" } as const;

/** In a few words, for a list: "a motif, repeat of 24, mirrored". */
export function bandShort({ kind, repeat, axes, shaded, crossed }: BuiltBand): string {
  if (kind === "plain") return "plain";
  return [
    KINDS[kind],
    `repeat of ${repeat.stitches}`,
    ...(axes.across.length > 0 ? ["mirrored"] : ["leaning"]),
    ...(shaded === "no" ? [] : ["shaded"]),
    ...(crossed.length > 0 ? [crossed.length === 1 ? "a crossing of value" : "crossings of value"] : []),
  ].join(", ");
}

/** Sentence by sentence what is known of a band. */
export function bandSentences(band: BuiltBand, name: ColourName, called: (id: string) => string): string[] {
  const { kind, repeat, axes, shaded, echo, crossed, ground, pattern, colours } = band;
  if (kind === "plain")
    return [
      `Plain rows in ${listWords(colours.map(name))}.`,
      ...(echo ? [`${capital(echoWords(echo, called))}.`] : []),
    ];
  const across = repeat.times === 1 ? "once across" : `${repeat.times} times across`;
  const times = repeat.over === 0 ? across : `${across} and ${repeat.over} over`;
  return [
    `${capital(KINDS[kind])} in ${listWords(pattern.map(name))} on ${listWords(ground.map(name))}${shadedWords(shaded)}.`,
    `It recurs after ${stitchesWords(repeat.stitches)}, ${times}${repeat.rows < heightOf(band) ? `, and upwards after ${repeat.rows} rows` : ""}.`,
    mirrorWords(axes, repeat),
    ...(echo ? [`${capital(echoWords(echo, called))}.`] : []),
    ...(crossed.length > 0
      ? [
          `In ${rowList(crossed)} its figure crosses over: light where it is dark elsewhere, or dark where it is light, in the pattern’s own colours.`,
        ]
      : []),
  ];
}

const heightOf = ({ rows }: Pick<BuiltBand, "rows">): number => rows[1] - rows[0] + 1;

const shadedWords = (shaded: BuiltBand["shaded"]): string =>
  shaded === "no" ? "" : `; its ${shaded === "both" ? "ground and pattern are" : `${shaded} is`} shaded`;

function mirrorWords({ across, up }: BuiltBand["axes"], { times, over }: BuiltBand["repeat"]): string {
  if (across.length === 0 && up.length === 0) return "It mirrors about no line: it leans.";
  const lines = [
    ...across.map((column) =>
      Number.isInteger(column)
        ? `column ${column}`
        : `the line between columns ${Math.floor(column)} and ${Math.ceil(column)}`,
    ),
    ...up.map((row) =>
      Number.isInteger(row) ? `row ${row}` : `the line between rows ${Math.floor(row)} and ${Math.ceil(row)}`,
    ),
  ];
  return `It mirrors about ${listWords(lines)}${across.length > 0 && times + over > 1 ? ", and again a repeat on" : ""}.`;
}

/** "the same as rows 12–18, mirrored, in other colours". */
export function echoWords(echo: NonNullable<BuiltBand["echo"]>, called: (id: string) => string): string {
  const { of, rows, mirrored, shift, recoloured } = echo;
  const name = called(of);
  const where = name.toLowerCase() === rowsWords(rows) ? rowsWords(rows) : `${name}, ${rowsWords(rows)}`;
  const how = [
    ...(mirrored === "none" ? [] : [MIRRORED[mirrored]]),
    ...(shift === 0 ? [] : [`${stitchesWords(shift)} further on`]),
    ...(recoloured ? ["in other colours"] : []),
  ];
  return ["the same as " + where, ...how].join(", ");
}

const MIRRORED = {
  across: "mirrored",
  up: "upside down",
  both: "turned round",
} as const;

export function rowList(rows: readonly number[]): string {
  const spans: [number, number][] = [];
  for (const row of rows) {
    const last = spans.at(-1);
    if (last && last[1] === row - 1) last[1] = row;
    else spans.push([row, row]);
  }
  const parts = spans.map(([from, to]) => (from === to ? String(from) : `${from}–${to}`));
  return `${rows.length === 1 ? "row" : "rows"} ${listWords(parts)}`;
}

const MEETS: Record<Meeting, string> = {
  "lined up": "Lined up: middle over middle, all round.",
  "half a repeat": "Offset by half a repeat: middle over the gap between two.",
  "half a stitch": "Half a stitch off: one has its middle on a stitch, the other between two.",
  shifted: "Shifted",
  drifting: "Drifting",
  leaning: "One of them leans and has no middle, so that there is nothing to line up.",
};

export function meetsWords({
  meets,
  offBy,
  repeats,
  every,
}: Pick<BuiltAlignment, "meets" | "offBy" | "repeats" | "every">): string {
  if (meets === "shifted" && offBy !== null)
    return `Shifted: the upper middles lie ${stitchesWords(Math.abs(offBy))} to the ${offBy > 0 ? "left" : "right"}, all round.`;
  if (meets === "drifting")
    return `Drifting: a repeat of ${repeats[1]} over one of ${repeats[0]}, so that they ${offBy === 0 ? "meet" : `come nearest, ${stitchesWords(Math.abs(offBy ?? 0))} off,`} every ${stitchesWords(every)}.`;
  return MEETS[meets];
}

/** How the repeats go into the rounds of each section. */
export function roundsSentences({ rounds, bands }: Pick<BuiltChart, "rounds" | "bands">): string[] {
  if (rounds.length === 0) return ["The chart is not placed in the rounds of a section."];
  const nameOf = new Map(bands.map((band) => [band.id, bandCalled(band)]));
  const broken = rounds.filter(({ over }) => over !== null && over > 0);
  const seen = new Set<string>();
  const lines = broken.flatMap(({ section, size, band, stitches, repeat, over }) => {
    const key = `${section}/${size}/${stitches}/${repeat}`;
    if (seen.has(key)) return [];
    seen.add(key);
    return [
      `${capital(section)}, ${size}: the repeat of ${repeat} of ${nameOf.get(band)} leaves ${over} of ${stitchesWords(stitches)} over.`,
    ];
  });
  if (lines.length === 0) {
    const sections = [...new Set(rounds.map(({ section }) => section))];
    lines.push(`Every repeat goes into the rounds of ${listWords(sections)}.`);
  }
  const halves = rounds.filter(({ opposite }) => opposite === "half a repeat on");
  const places = [...new Set(halves.map(({ section, size }) => `${section}, ${size}`))];
  if (places.length > 0) {
    const names = [...new Set(halves.map(({ band }) => nameOf.get(band)!))];
    lines.push(
      `Odd numbers of repeats: opposite the front, the back shows what lies half a repeat on, for ${shortList(names)} (${shortList(places)}).`,
    );
  }
  return lines;
}

const shortList = (names: readonly string[]): string =>
  names.length > 4 ? `${names.slice(0, 3).join(", ")} and ${names.length - 3} more` : listWords(names);

/** What is done about a row's longest strand. */
export function strandWords({ floats, catches, ladders }: BuiltRow, name: ColourName, limit: number): string {
  const long = floats.filter(({ longest }) => longest > limit);
  const passes = long.map(({ colour, longest }) => `${name(colour)} passes ${stitchesWords(longest)}`);
  const ways = [
    ...(catches.length > 0 ? [`catch it behind ${columnsWords(catches)}`] : []),
    ...(ladders.length > 0 ? [`too long to catch: ladders behind ${columnsWords(ladders)}`] : []),
  ];
  return [passes.join(", "), ...ways].join("; ");
}

const columnsWords = (columns: readonly number[]): string =>
  `${columns.length === 1 ? "column" : "columns"} ${listWords(columns.toSorted((a, b) => a - b).map(String))}`;

/** What a stitch in another colour would do. */
export function changedSentences({ longest, strands, tooLong, limit }: ChangedStitch): string[] {
  const [before, after] = longest;
  const change =
    before === after
      ? `The longest strand of the row passes ${stitchesWords(before)}, as before.`
      : `The longest strand of the row would pass ${stitchesWords(after)} instead of ${before}.`;
  const over = (count: number): string => `${count} ${count === 1 ? "strand" : "strands"}`;
  return [
    change,
    ...(tooLong[0] === tooLong[1]
      ? []
      : [
          `${capital(over(tooLong[1]))} instead of ${tooLong[0]} would pass more than the ${limit} stitches that lie well.`,
        ]),
    ...(strands[0] === strands[1]
      ? []
      : [
          `The row would have ${over(strands[1])} instead of ${strands[0]}${strands[1] > 2 ? ": two in a row are the rule" : ""}.`,
        ]),
  ];
}
