/** The change of one yarn, from those she owns, that mends a finding best; tried out on the whole garment before it is offered. */
import { labOfYarn, type Yarn } from "../yarn/yarn.ts";
import { labOfShade } from "../colour/shade.ts";
import { deltaE2000 } from "../colour/difference.ts";
import { yarnInRow, type Change, type Colourway } from "../fabric/colourway.ts";
import { audit, atLeast } from "./audit.ts";
import { capital, mainColourOf, rowsText, yarnName, type AuditContext, type Supply } from "./context.ts";
import type { Finding, Mend } from "./finding.ts";
import { contextOf, type Case, type JudgeMemory } from "./judge.ts";

export interface MendLimits {
  /** Findings that are mended, worst first. */
  readonly findings: number;
  /** Yarns that are tried out for each of a finding's colours. */
  readonly yarns: number;
  /** Mends offered for a finding. */
  readonly offers: number;
}

/** Enough for the findings that are shown first; our choice. */
export const USUAL_LIMITS: MendLimits = { findings: 6, yarns: 8, offers: 2 };

/** Metres that a chart colour takes with reserve, and metres owned of a yarn; unknown where undefined. */
export interface YarnNeeds {
  readonly ofColour: ReadonlyMap<string, number>;
  readonly owned: ReadonlyMap<string, number>;
}

const NO_NEEDS: YarnNeeds = { ofColour: new Map(), owned: new Map() };

/** The findings with their mends. A mend takes away its finding and brings no new one. */
export function withMends(
  findings: readonly Finding[],
  input: Case,
  memory: JudgeMemory,
  { limits = USUAL_LIMITS, needs = NO_NEEDS }: { limits?: MendLimits; needs?: YarnNeeds } = {},
): Finding[] {
  let left = limits.findings;
  return findings.map((finding) => {
    if (finding.mends || finding.severity === "note" || left <= 0) return finding;
    left -= 1;
    const mends = mendsFor(finding, findings, input, memory, limits, needs);
    return mends.length > 0 ? { ...finding, mends } : finding;
  });
}

interface Candidate {
  readonly colour: string;
  readonly yarn: Yarn;
  readonly near: number;
  /** The place alone; undefined: everywhere that the colour is used. */
  readonly at: { readonly chart: string; readonly rows: [number, number] } | undefined;
}

/** A finding over more rows than these is no longer a place: the colour changes everywhere or not at all. Our choice. */
const HIGHEST_PLACE = 40;

/** A change everywhere keeps the pattern's own plan; one for a place must be nearer by this much L*. Our choice. */
const PLACE_COSTS = 5;

function mendsFor(
  finding: Finding,
  findings: readonly Finding[],
  input: Case,
  memory: JudgeMemory,
  limits: MendLimits,
  needs: YarnNeeds,
): Mend[] {
  // A strand is carried whatever its yarn: what mends a float is laid on, and comes with the finding.
  if (kindOf(finding) === "floats") return [];
  const before = findings.filter((one) => atLeast(one, "doubt"));
  const known = new Map(before.map((one) => [one.id, one]));
  const { chart, rows } = finding.where;
  const offers = candidatesFor(finding, undefined, input, limits, needs).flatMap((one) => tryOut(one) ?? []);
  const isPlace = kindOf(finding) !== "amounts" && rows[1] - rows[0] < HIGHEST_PLACE;
  if (isPlace && offers.length < limits.offers) {
    const here = { chart, rows: [rows[0], rows[1]] as [number, number] };
    offers.push(...candidatesFor(finding, here, input, limits, needs).flatMap((one) => tryOut(one) ?? []));
  }
  const main = mainColourOf(input.pattern);
  const onMain = ({ mend }: { mend: Mend }): number => Number(mend.colour === main);
  const offered = new Set<string>();
  return (
    offers
      // The garment's main colour is the last that anyone changes.
      .sort((a, b) => onMain(a) - onMain(b) || a.left - b.left || a.near - b.near)
      .filter(({ mend: { colour, to } }) => {
        const again = offered.has(`${colour} ${to}`);
        offered.add(`${colour} ${to}`);
        return !again;
      })
      .slice(0, limits.offers)
      .map(({ mend }) => mend)
  );

  function tryOut({ colour, yarn, near, at }: Candidate): { mend: Mend; left: number; near: number } | null {
    const colourway = withYarn(input.colourway, { colour, yarn: yarn.id, ...(at ? { at } : {}) });
    const from = yarnBefore(input.colourway, colour, at);
    const supplies = at ? (input.supplies ?? []) : suppliesAfter(input, colourway, { from, colour }, needs);
    const context = contextOf({ ...input, colourway, supplies }, memory);
    const after = audit(context).filter((one) => atLeast(one, "doubt"));
    // A place that stays lost is not mended, though nothing be said of it: knitted in one yarn, or lost in the pattern too.
    const shows = shownNow(finding, context);
    if (shows?.text === "lost" || shows?.text === "") return null;
    // A finding's id names its yarns, so what is left of this one, or of another whose yarn has changed, has a new id.
    const same = (one: Finding, other: Finding): boolean =>
      kindOf(one) === kindOf(other) && sameRows(one.where, other.where);
    const fresh = after.filter(({ id }) => !known.has(id));
    if (after.some(({ id }) => id === finding.id) || fresh.some((one) => same(one, finding))) return null;
    if (fresh.some((one) => !before.some((other) => same(one, other) && atLeast(other, one.severity)))) return null;
    return {
      left: after.length,
      near: near + (at ? PLACE_COSTS : 0),
      mend: {
        colour,
        from,
        to: yarn.id,
        ...(at ? { at } : {}),
        sentence: `${capital(yarnName(input, yarn.id))} for ${from === null ? colour : yarnName(input, from)}${at ? ` in ${rowsText(at.rows)}` : ""}${shows ? `: ${shows.text}` : ""}`,
        numbers: {
          V: shows?.V ?? null,
          was: typeof finding.numbers.V === "number" ? finding.numbers.V : null,
          findingsBefore: before.length,
          findingsAfter: after.length,
        },
      },
    };
  }
}

const yarnBefore = (colourway: Colourway, colour: string, at: Candidate["at"]): string | null =>
  (at ? yarnInRow(colourway, colour, at.chart, at.rows[0]) : colourway.yarns[colour]) ?? null;

/** Metres after a change everywhere: what the colour took is taken off the yarn that it had; the new yarn was chosen to be enough. */
function suppliesAfter(
  { supplies = [] }: Case,
  colourway: Colourway,
  { from, colour }: { from: string | null; colour: string },
  needs: YarnNeeds,
): Supply[] {
  const still = usedYarns(colourway);
  return supplies.flatMap((supply): Supply[] => {
    if (supply.yarn !== from) return [supply];
    if (!still.has(from)) return [];
    const left = Math.max(0, 1 - (needs.ofColour.get(colour) ?? 0) / (supply.metres + supply.reserve));
    const [metres, reserve] = [supply.metres * left, supply.reserve * left];
    const short = supply.have === null ? null : Math.max(0, metres + reserve - supply.have);
    return [{ ...supply, metres, reserve, low: supply.low * left, high: supply.high * left, short }];
  });
}

const usedYarns = (colourway: Colourway): Set<string> =>
  new Set([
    ...Object.values(colourway.yarns),
    ...(colourway.changes ?? []).map(({ yarn }) => yarn),
    ...(colourway.overStitched ?? []).map(({ yarn }) => yarn),
  ]);

const kindOf = ({ id }: Finding): string => id.slice(0, id.indexOf("/"));

const sameRows = (one: Finding["where"], other: Finding["where"]): boolean =>
  one.chart === other.chart && one.rows[0] <= other.rows[1] && other.rows[0] <= one.rows[1];

/** What a finding's place comes to after a change: a row's or figure's V with its word, or a colour's visual weight. */
function shownNow(finding: Finding, context: AuditContext): { V: number | null; text: string } | null {
  const { chart, rows, band, colours = [], section = null } = finding.where;
  const judged = context.charts.find((one) => one.chart.id === chart && one.section === section);
  if (!judged) return null;
  const kind = kindOf(finding);
  if (kind === "legibility" || kind === "figure") {
    const measured =
      kind === "legibility"
        ? judged.now.rows.find(({ row }) => row === rows[0])
        : judged.now.bands.find((one) => one.band.id === band);
    const contrast = measured?.contrast;
    const shown =
      kind === "legibility"
        ? contrast
        : contrast?.figures.find(({ area, against }) =>
            [area, against].every((one) => one.colours.some((colour) => colours.includes(colour))),
          );
    return shown?.shows ? { V: shown.V, text: shown.shows } : { V: 0, text: "" };
  }
  if (kind === "part") {
    const parts = [...judged.parts].find(([index]) => judged.now.bands[index]!.band.id === band)?.[1].now ?? [];
    const part = parts.find(
      (one) =>
        one.rows[0] >= rows[0] &&
        one.rows[1] <= rows[1] &&
        [one.area, one.against].every((area) => area.colours.some((colour) => colours.includes(colour))),
    );
    // Where its figure is about as strong as the pattern's, nobody asks after the part.
    return part ? { V: part.V, text: part.shows } : null;
  }
  if (kind === "visualWeight") {
    const weight = judged.now.weights
      .filter(({ ink }) => judged.now.cloth.inks[ink]!.colour === colours[0])
      .reduce((sum, { share }) => sum + share, 0);
    return { V: null, text: `about ${Math.round(weight * 100)} % of what draws the eye` };
  }
  return null;
}

function candidatesFor(
  finding: Finding,
  at: Candidate["at"],
  input: Case,
  limits: MendLimits,
  needs: YarnNeeds,
): Candidate[] {
  const used = usedYarns(input.colourway);
  return (finding.where.colours ?? []).flatMap((colour) => {
    const shade = input.pattern.colours.find(({ id }) => id === colour)?.shade;
    if (!shade) return [];
    const wanted = labOfShade(shade);
    const need = (needs.ofColour.get(colour) ?? 0) * (at ? partIn(input, colour, at) : 1);
    // Where a change at that place is to blame, the colour's own yarn is the plainest way out.
    const own = at && yarnBefore(input.colourway, colour, at) !== input.colourway.yarns[colour];
    return input.yarns
      .filter(({ id }) => !used.has(id) || (own && id === input.colourway.yarns[colour]))
      .filter(({ id }) => (needs.owned.get(id) ?? Infinity) >= need)
      .map((yarn) => ({ colour, yarn, at, near: nearness(labOfYarn(yarn), wanted) }))
      .sort((a, b) => a.near - b.near)
      .slice(0, limits.yarns);
  });
}

/** Which part of a colour's stitches lies in some rows, 0 to 1. */
function partIn({ pattern }: Case, colour: string, { chart, rows }: NonNullable<Candidate["at"]>): number {
  const count = (texts: readonly string[]): number => texts.join("").split(colour).length - 1;
  const all = pattern.charts.reduce((sum, one) => sum + count(one.rows), 0);
  const own = pattern.charts.find(({ id }) => id === chart)?.rows ?? [];
  return all === 0 ? 0 : count(own.slice(own.length - rows[1], own.length - rows[0] + 1)) / all;
}

/** The place on the ladder counts most, the hue a little. Our choice. */
const nearness = (lab: readonly [number, number, number], wanted: readonly [number, number, number]): number =>
  Math.abs(lab[0] - wanted[0]) + 0.25 * deltaE2000(lab, wanted);

/** A colourway with one yarn changed, everywhere or at a place. Changes that had borrowed the old yarn stay as they are. */
export function withYarn(colourway: Colourway, change: { colour: string; yarn: string; at?: Change["at"] }): Colourway {
  const { colour, yarn, at } = change;
  if (at) return { ...colourway, changes: [...(colourway.changes ?? []), { at, colour, yarn }] };
  return { ...colourway, yarns: { ...colourway.yarns, [colour]: yarn } };
}
