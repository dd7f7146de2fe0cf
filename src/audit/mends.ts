/** The change of one yarn, from those she owns, that mends a finding best; tried out on the whole garment before it is offered. */
import { labOfYarn, type Yarn } from "../yarn/yarn.ts";
import { labOfShade } from "../colour/shade.ts";
import { deltaE2000 } from "../colour/difference.ts";
import type { Change, Colourway } from "../fabric/colourway.ts";
import { audit, atLeast } from "./audit.ts";
import { mainColourOf, yarnName } from "./context.ts";
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
  readonly from: string | null;
  readonly yarn: Yarn;
  readonly near: number;
}

function mendsFor(
  finding: Finding,
  findings: readonly Finding[],
  input: Case,
  memory: JudgeMemory,
  limits: MendLimits,
  needs: YarnNeeds,
): Mend[] {
  const known = new Set(findings.map(({ id }) => id));
  const before = findings.filter((one) => atLeast(one, "doubt")).length;
  const offers: { mend: Mend; left: number; near: number }[] = [];
  for (const candidate of candidatesFor(finding, input, limits, needs)) {
    const everywhere = tryOut(candidate, undefined);
    const mend = everywhere ?? (finding.where.rows[1] - finding.where.rows[0] < 40 ? tryOut(candidate, finding) : null);
    if (mend) offers.push(mend);
  }
  return offers
    .sort((a, b) => a.left - b.left || a.near - b.near)
    .slice(0, limits.offers)
    .map(({ mend }) => mend);

  function tryOut({ colour, from, yarn, near }: Candidate, here: Finding | undefined) {
    const at = here
      ? { chart: here.where.chart, rows: [here.where.rows[0], here.where.rows[1]] as [number, number] }
      : undefined;
    const context = contextOf(
      { ...input, colourway: withYarn(input.colourway, { colour, yarn: yarn.id, ...(at ? { at } : {}) }) },
      memory,
    );
    const after = audit(context).filter((one) => atLeast(one, "doubt"));
    // A place knitted in one yarn has nothing left to find fault with; that is no mend.
    const shows = shownNow(finding, context);
    if (shows?.V === 0) return null;
    const mended = !after.some(
      ({ id, where, severity }) =>
        id === finding.id ||
        (sameRows(where, finding.where) && severity === finding.severity && id.startsWith(kindOf(finding))),
    );
    const fresh = after.filter(({ id }) => !known.has(id));
    if (!mended || fresh.length > 0) return null;
    return {
      left: after.length,
      // A change everywhere keeps the pattern's own plan; one for a place is second choice.
      near: near + (at ? 5 : 0),
      mend: {
        colour,
        from,
        to: yarn.id,
        ...(at ? { at } : {}),
        sentence: `${yarnName(input, yarn.id)} for ${from === null ? colour : yarnName(input, from)}${at ? " here" : ""}${shows ? `: ${shows.text}` : ""}`,
        numbers: {
          V: shows?.V ?? null,
          was: typeof finding.numbers.V === "number" ? finding.numbers.V : null,
          findingsBefore: before,
          findingsAfter: after.length,
        },
      } satisfies Mend,
    };
  }
}

const kindOf = ({ id }: Finding): string => id.slice(0, id.indexOf("/"));

const sameRows = (one: Finding["where"], other: Finding["where"]): boolean =>
  one.chart === other.chart && one.rows[0] <= other.rows[1] && other.rows[0] <= one.rows[1];

function shownNow(finding: Finding, context: ReturnType<typeof contextOf>): { V: number | null; text: string } | null {
  const { chart, rows, colours } = finding.where;
  const judged = context.charts.find((one) => one.chart.id === chart);
  if (kindOf(finding) === "legibility") {
    const contrast = judged?.now.rows.find(({ row }) => row === rows[0])?.contrast;
    return contrast?.shows ? { V: contrast.V, text: contrast.shows } : null;
  }
  if (kindOf(finding) === "visualWeight") {
    const weight = judged?.now.weights
      .filter(({ ink }) => judged.now.cloth.inks[ink]!.colour === colours?.[0])
      .reduce((sum, { share }) => sum + share, 0);
    return weight === undefined ? null : { V: null, text: `about ${Math.round(weight * 100)} % of the visual weight` };
  }
  return null;
}

function candidatesFor(finding: Finding, input: Case, limits: MendLimits, needs: YarnNeeds): Candidate[] {
  const main = mainColourOf(input.pattern);
  const { colourway } = input;
  const used = new Set([...Object.values(colourway.yarns), ...(colourway.changes ?? []).map(({ yarn }) => yarn)]);
  // The garment's main colour is the last that anyone changes for one row.
  const colours = (finding.where.colours ?? []).toSorted((a, b) => Number(a === main) - Number(b === main));
  return colours.flatMap((colour) => {
    const shade = input.pattern.colours.find(({ id }) => id === colour)?.shade;
    const from = input.colourway.yarns[colour] ?? null;
    if (!shade) return [];
    const wanted = labOfShade(shade);
    const need = needs.ofColour.get(colour);
    return input.yarns
      .filter(({ id }) => !used.has(id))
      .filter(({ id }) => need === undefined || (needs.owned.get(id) ?? Infinity) >= need)
      .map((yarn) => ({ colour, from, yarn, near: nearness(labOfYarn(yarn), wanted) }))
      .sort((a, b) => a.near - b.near)
      .slice(0, limits.yarns);
  });
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
