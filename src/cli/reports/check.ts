/** What `check` tells people: the ladder, the bands in words, then the findings with what mends them. */
import type { Caution } from "../../audit/cautions.ts";
import type { WorthMeasuring } from "../../audit/worthMeasuring.ts";
import type { Word } from "../../fabric/visibility.ts";
import type { CheckResult } from "../../jobs.ts";
import type { Project } from "../../document/project.ts";
import { counted, paragraph, plain, rowList, rowsWords, table } from "../words.ts";

/** Findings shown in full before the rest is counted. */
const SHOWN = 10;

/** Mends shown of a finding; --json has them all. */
const MENDS_SHOWN = 3;

/** A check, and what is told beside it where it was asked for: yarns worth measuring better, and cautions. */
export interface Checked extends CheckResult {
  readonly measure?: readonly WorthMeasuring[];
  readonly cautions?: readonly Caution[];
}

export function checkReport(project: Project, result: Checked, shown: "worst" | "all"): string {
  const colourway = project.colourways.find(({ id }) => id === result.colourway);
  const title = `${project.name || "This project"}: colourway ${colourway?.name ?? result.colourway} (${result.colourway})`;
  return [
    `${paragraph(title)}\n${paragraph(`Seen from ${result.distance} m in ${result.light} lx${deficiencyWords(result)}.`)}`,
    ladder(result),
    bands(result, severalCharts(project)),
    rows(result),
    weights(result),
    findings(result, shown),
    measuring(result.measure ?? []),
    cautions(result.cautions ?? []),
    paragraph(eyeWords(result)),
  ]
    .filter((part) => part !== "")
    .join("\n\n");
}

const deficiencyWords = ({ deficiency }: CheckResult): string =>
  deficiency ? `, as a ${deficiency.kind} eye sees it (severity ${deficiency.severity})` : "";

/** Whose eyes these are: ordinary ones until she has said how her swatches look. */
function eyeWords({ eye }: CheckResult): string {
  if (eye.verdicts === 0) return "A model of ordinary eyesight, not tested on knitting; a swatch settles it.";
  const [about, least, most] = [eye.theta, eye.low, eye.high].map((theta) => Number(Math.exp(theta).toPrecision(2)));
  return `Tuned by ${eye.verdicts} of your swatches' looks. You need about ${about} times the model's contrast (${least}–${most}).`;
}

const severalCharts = ({ pattern }: Project): boolean => pattern.charts.length > 1;

function ladder({ ladder, turnedOver }: CheckResult): string {
  const lines = ladder.map((step) => [
    `${step.colour}  ${step.name}${step.main ? ", main" : ""}`,
    step.yarnName ?? "no yarn yet",
    lightness(step),
    step.class,
    lightness(step.was),
  ]);
  const crossed = ladder.flatMap(({ colour, crosses }) =>
    crosses.map((other) => [colour, other].toSorted().join(" and ")),
  );
  const changed = [...new Set(crossed)];
  const turned = turnedOver ? "The ladder is turned over: what was light is dark. " : "";
  const told =
    changed.length > 0
      ? `The order from light to dark has ${turnedOver ? "also " : ""}changed between ${changed.join(", ")}.`
      : turnedOver
        ? "Its order is the pattern's, from the other end."
        : "The order from light to dark is the pattern's.";
  const open = openWords(ladder);
  const undecided = ladder.filter(({ mayBe }) => mayBe.length > 1);
  const between =
    undecided.length > 0
      ? ` Between value classes: ${undecided.map(({ colour, yarnName, mayBe }) => `${yarnName ?? colour} (${mayBe.join(" or ")})`).join(", ")}.`
      : "";
  const columns = [
    { heading: "colour", elastic: true },
    { heading: "yarn", elastic: true },
    { heading: "L*", align: "right" },
    { heading: "value" },
    { heading: "pattern's L*", align: "right" },
  ] as const;
  return `Value ladder, in the pattern's order from light to dark\n${table(columns, lines)}\n${paragraph(turned + told + open + between, "  ")}`;
}

/** "73 (70-76)": in four cases of five it lies in between. */
function lightness({ L, low, high }: { readonly L: number; readonly low: number; readonly high: number }): string {
  const [least, most] = [low.toFixed(0), high.toFixed(0)];
  return least === most ? L.toFixed(0) : `${L.toFixed(0)} (${least}-${most})`;
}

/** Which colours may change places, told of the one that is in most pairs first. */
function openWords(ladder: CheckResult["ladder"]): string {
  const nameOf = (colour: string): string => {
    const step = ladder.find((one) => one.colour === colour)!;
    return step.yarnName === null ? colour : `${step.yarnName} (${colour})`;
  };
  const pairs = ladder.flatMap(({ colour, mayCross }, at) =>
    mayCross
      .filter((other) => ladder.findIndex((step) => step.colour === other) > at)
      .map((other) => `${nameOf(colour)} and ${nameOf(other)}`),
  );
  return pairs.length === 0
    ? ""
    : ` How well the shades are known leaves open which is the lighter of ${pairs.join(", of ")}: they may change places.`;
}

function bands({ bands, distance }: CheckResult, withChart: boolean): string {
  const figured = bands.filter(({ shows, want }) => shows !== null || want !== null);
  const plainOnes = bands.length - figured.length;
  const lines = figured.map((band) => [
    [withChart ? band.chart : null, band.id, band.name, band.echoOf && `(as ${band.echoOf})`].filter(Boolean).join(" "),
    band.rows[0] === band.rows[1] ? `${band.rows[0]}` : `${band.rows[0]}-${band.rows[1]}`,
    showsWords(band),
    readsToWords(band.readsTo),
    band.cast.name,
  ]);
  const columns = [
    { heading: "band", elastic: true },
    { heading: "rows" },
    { heading: "shows" },
    { heading: "reads to" },
    { heading: "from afar", elastic: true },
  ] as const;
  const parts = [
    ...(lines.length > 0 ? [table(columns, lines)] : []),
    ...(plainOnes > 0 ? [`  and ${counted(plainOnes, "band")} of plain rows.`] : []),
    ...doubtLines(figured),
    ...leadersLines(figured),
  ];
  return [
    `Bands from the bottom, at ${distance} m; "was" is the pattern in its own colours`,
    ...(lines.length > 0 ? ["Reads to: how far it is clear, an estimate (its least–its most; 0 is never)"] : []),
    ...parts,
  ].join("\n");
}

/** Which chart colours the eye goes to first, and in which bands. */
function leadersLines(bands: CheckResult["bands"]): string[] {
  const led = bands.filter(({ leads }) => leads.length > 0);
  const colours = [...new Set(led.flatMap(({ leads }) => leads))];
  const told = colours.map((colour) => {
    const own = led.filter(({ leads }) => leads.includes(colour)).map(({ id }) => id);
    return `${colour} in ${own.join(", ")}`;
  });
  return told.length > 0 ? [paragraph(`The eye goes first to ${told.join("; ")} (an estimate).`, "  ")] : [];
}

/** Bands that the range of their word carries over the limit of reading: "b6 may be lost; b18 may be clear." */
function doubtLines(bands: CheckResult["bands"]): string[] {
  const reads = (word: Word): boolean => word === "clear" || word === "strong";
  const other = ({ shows, between }: CheckResult["bands"][number]): Word | null =>
    shows && between ? (between.find((end) => reads(end) !== reads(shows)) ?? null) : null;
  const told = (["lost", "faint", "clear", "strong"] as const).flatMap((word) => {
    const ids = bands.filter((band) => other(band) === word).map(({ id }) => id);
    return ids.length > 0 ? [`${ids.join(", ")} may be ${word}`] : [];
  });
  return told.length > 0
    ? [paragraph(`As far as shades, the weight of hue and your eye are known: ${told.join("; ")}.`, "  ")]
    : [];
}

/** "clear", and what it was or is wanted to be where that is another word. */
function showsWords({ shows, was, want }: CheckResult["bands"][number]): string {
  const before = was.shows !== shows && was.shows !== null ? `, was ${was.shows}` : "";
  return `${shows ?? "plain"}${before}${want !== null && want !== shows ? `, wanted ${want}` : ""}`;
}

/** The farthest claim, in metres. Birthplace: vision.md B2, our choice. */
const FARTHEST = 6;

/** "4.2 m (3.1–5)", an estimate and, where it is in doubt, its least and most. */
export function readsToWords(readsTo: CheckResult["bands"][number]["readsTo"]): string {
  if (!readsTo) return "";
  const told = (value: number): string =>
    value >= FARTHEST ? `past ${FARTHEST}` : String(Number(value.toPrecision(2)));
  const [estimate, low, high] = [readsTo.metres, readsTo.low, readsTo.high].map(told) as [string, string, string];
  const range = low === high ? "" : ` (${low}–${high})`;
  return `${readsTo.metres > 0 ? `${estimate} m` : "never"}${range}`;
}

function rows({ rows }: CheckResult): string {
  const told = patterned(rows, ({ colours }) => colours.length > 1);
  const charts = [...new Set(told.map(({ chart }) => chart))];
  const lines = charts.flatMap((chart) => {
    const own = rows.filter((row) => row.chart === chart);
    const showing = (word: string | null) => own.filter(({ shows }) => shows === word).map(({ row }) => row);
    const counts = (["lost", "faint", "clear", "strong"] as const)
      .map((word) => `${showing(word).length} ${word}`)
      .join(", ");
    const named = (["lost", "faint"] as const).flatMap((word) =>
      showing(word).length > 0 ? [paragraph(rowList(showing(word)), `  ${word}: `)] : [],
    );
    const plainRows = showing(null).length;
    const of = charts.length > 1 ? ` of chart ${chart}` : "";
    return [paragraph(`Rows${of}: ${counts}${plainRows > 0 ? `, ${plainRows} of one colour` : ""}`), ...named];
  });
  return lines.join("\n");
}

/** Without the charts in which nothing is of a second colour: a chart for plain knitting has nothing to tell. All, where none has. */
function patterned<Line extends { readonly chart: string }>(
  lines: readonly Line[],
  isPatterned: (line: Line) => boolean,
): readonly Line[] {
  const charts = new Set(lines.filter(isPatterned).map(({ chart }) => chart));
  return charts.size === 0 ? lines : lines.filter(({ chart }) => charts.has(chart));
}

function weights({ weights, ladder }: CheckResult): string {
  const whole = weights.filter(({ band, area }) => band === null && area > 0);
  const told = patterned(whole, (weight) => weight.area < 1);
  const charts = [...new Set(told.map(({ chart }) => chart))];
  const percent = (share: number): string => `${Math.round(share * 100)} %`;
  const columns = [
    { heading: "colour", elastic: true },
    { heading: "stitches", align: "right" },
    { heading: "draws the eye", align: "right" },
    { heading: "in the pattern's colours", align: "right" },
  ] as const;
  const tables = charts.map((chart) => {
    const lines = whole
      .filter((weight) => weight.chart === chart)
      .map(({ colour, yarnName, over, share, area, was }) => {
        const name = yarnName ?? ladder.find((step) => step.colour === colour)?.name ?? "";
        return [`${colour} ${name}${over ? ", laid on" : ""}`, percent(area), percent(share), percent(was.share)];
      });
    return `Visual weight${charts.length > 1 ? ` in chart ${chart}` : ""}, an estimate\n${table(columns, lines)}`;
  });
  return tables.join("\n\n");
}

function findings({ findings }: CheckResult, shown: "worst" | "all"): string {
  if (findings.length === 0) return "Findings: none.";
  const counts = (["fault", "doubt", "note"] as const)
    .map((severity) => ({ severity, count: findings.filter((finding) => finding.severity === severity).length }))
    .filter(({ count }) => count > 0)
    .map(({ severity, count }) => counted(count, severity));
  const told = shown === "all" ? findings : findings.slice(0, SHOWN);
  const rest = findings.length - told.length;
  const texts = told.map((finding) => {
    const indent = "         ";
    const mends = (finding.mends ?? [])
      .slice(0, MENDS_SHOWN)
      .map(({ sentence }) => paragraph(sentence.replace(/[^.?!]$/, "$&."), `${indent}Mend: `));
    const head = paragraph(finding.headline || rowsWords(finding.where.rows), `  ${finding.severity.padEnd(7)}`);
    return [head, paragraph(finding.sentence, indent), ...mends].join("\n");
  });
  const more = rest > 0 ? [`  and ${rest} more: --all tells them.`] : [];
  return [`Findings, worst first: ${plain(counts.join(", "))}`, ...texts, ...more].join("\n\n");
}

/** More than this is nagging; --json has them all. */
const MEASURES_SHOWN = 3;

const measuring = (worth: readonly WorthMeasuring[]): string =>
  worth.length === 0
    ? ""
    : [
        "Better known shades, an estimate",
        ...worth.slice(0, MEASURES_SHOWN).map(({ sentence }) => paragraph(sentence, "  - ")),
      ].join("\n");

/** What the wool itself may do; nobody has tried it yet. */
function cautions(cautions: readonly Caution[]): string {
  if (cautions.length === 0) return "";
  const texts = cautions.map(({ sentence, advice }) => `${paragraph(sentence, "  - ")}\n${paragraph(advice, "    ")}`);
  return ["Cautions, to be tried on a swatch", ...texts].join("\n");
}
