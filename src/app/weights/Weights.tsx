/** What draws the eye: each colour's visual weight against the pattern's own, in the whole fabric and band by band, at the distance. */
import { useCallback, useMemo, type ReactNode } from "react";
import { hexFromLab } from "../../colour/lab.ts";
import { labOfYarn } from "../../yarn/yarn.ts";
import { useBench } from "../shell/bench.ts";
import { metresWords } from "../shell/words.ts";
import { NumberHelp } from "../ui/NumberHelp.tsx";
import { useSeenProject } from "../ui/seenProject.ts";
import type { CheckResult, WeightLine } from "../worker/api.ts";
import { BandList } from "./BandList.tsx";
import { WeightList, type WeighedYarn } from "./WeightList.tsx";
import { againstWords, recursWords, standsOutWords } from "./weightWords.ts";

/** Lines of the whole fabric's weights before the rest is asked for. */
const WEIGHTS_FIRST = 6;

export function Weights(): ReactNode {
  const { check, chart, checkFailed, view } = useBench();
  return (
    <section aria-labelledby="weights-title" className="weights">
      <div className="titled">
        <h2 id="weights-title" tabIndex={-1}>
          What draws the eye
        </h2>
        <NumberHelp of={["visualWeight", "standsOut", "recurs"]} />
      </div>
      {!check || !chart ? (
        !checkFailed && <p className="empty">Looking…</p>
      ) : (
        <ChartWeights check={check} chart={chart.id} distance={view.distance} />
      )}
    </section>
  );
}

interface ChartWeightsProps {
  readonly check: CheckResult;
  readonly chart: string;
  readonly distance: number;
}

function ChartWeights({ check, chart, distance }: ChartWeightsProps): ReactNode {
  const hexOf = useHexes(check);
  const lines = useMemo(() => check.weights.filter((line) => line.chart === chart), [check, chart]);
  const whole = useMemo(() => weighedYarns(lines, null, hexOf), [lines, hexOf]);
  const bands = useMemo(() => {
    const patterned = new Set(lines.map(({ band }) => band));
    return check.bands
      .filter((band) => band.chart === chart && band.section === null && patterned.has(band.id))
      .sort((a, b) => b.rows[0] - a.rows[0]);
  }, [check, lines, chart]);
  const weightsOf = useCallback((band: string) => weighedYarns(lines, band, hexOf), [lines, hexOf]);
  const nameOf = useCallback(
    (band: string, colour: string) => {
      const [most] = lines
        .filter((line) => line.band === band && line.colour === colour)
        .sort((a, b) => b.share - a.share);
      return most?.yarnName ?? colour;
    },
    [lines],
  );
  const changed = bands.filter(
    ({ leads, was }) => leads.length + was.leads.length > 0 && !leads.some((one) => was.leads.includes(one)),
  );
  // Shares are parts of a whole, and stay parts of it when hardly anything is left of the whole.
  const melted = bands.length > 0 && bands.every(({ shows }) => shows === "lost");
  if (whole.length < 2)
    return <p className="empty">The chart is in one colour: there is nothing for it to stand against.</p>;
  return (
    <>
      {melted ? (
        <p>From {metresWords(distance)} every band is lost, so nothing on this fabric draws the eye.</p>
      ) : (
        <>
          <p className="weights-key">
            The whole fabric at {metresWords(distance)}: <span className="key-bar now" aria-hidden="true" /> in your
            yarns, <span className="key-bar then" aria-hidden="true" /> in the pattern’s own. An estimate.
          </p>
          <p className="weights-told">{mostChanged(lines)}</p>
          <WeightList lines={whole} first={WEIGHTS_FIRST} />
        </>
      )}
      {bands.length > 0 && (
        <>
          <div className="titled">
            <h3 id="bands-title">Band by band</h3>
            <NumberHelp of={["cast", "leads", "words", "readsTo", "range"]} about="bands" />
          </div>
          <p className="weights-key">
            {changed.length === 0
              ? "In every band the same colour leads as in the pattern, or none does in either."
              : `In ${changed.length} of ${bands.length} bands another colour leads than in the pattern, or none.`}{" "}
            Rows in one colour are left out.
          </p>
          <BandList key={chart} bands={bands} weightsOf={weightsOf} nameOf={nameOf} />
        </>
      )}
    </>
  );
}

/** How each line's colour looks to the chosen eye. */
function useHexes({ ladder }: CheckResult): (line: WeightLine) => string {
  const seen = useSeenProject();
  const yarns = useMemo(() => new Map(seen?.yarns.map((yarn) => [yarn.id, hexFromLab(labOfYarn(yarn))])), [seen]);
  return useCallback(
    ({ yarn, colour }) =>
      (yarn !== null && yarns.get(yarn)) || (ladder.find((rung) => rung.colour === colour)?.was.hex ?? "transparent"),
    [yarns, ladder],
  );
}

function weighedYarns(
  lines: readonly WeightLine[],
  band: string | null,
  hexOf: (line: WeightLine) => string,
): WeighedYarn[] {
  const here = lines.filter((line) => line.band === band);
  const ground = here
    .filter(({ share, was }) => share === 0 && was.share === 0)
    .reduce<WeightLine | null>((most, line) => (!most || line.area > most.area ? line : most), null);
  return here.map((line) => {
    const { share, was, standsOut, recurs } = line;
    const stands = standsOutWords(standsOut, was.standsOut);
    return {
      key: `${line.colour} ${line.yarn} ${line.over}`,
      name: nameWords(line),
      hex: hexOf(line),
      share,
      was: was.share,
      ground: line === ground,
      more: band === null ? [stands, recursWords(recurs)].filter((part) => part !== null).join(" · ") : (stands ?? ""),
    };
  });
}

const nameWords = ({ colour, yarnName, over }: WeightLine): string =>
  `${colour} · ${yarnName ?? "no yarn yet"}${over ? ", laid on" : ""}`;

/** A change smaller than this part of the whole is not worth a sentence. */
const WORTH_TELLING = 0.02;

/** The colour whose share has changed most against the pattern's, in a sentence. */
function mostChanged(lines: readonly WeightLine[]): string {
  const change = ({ share, was }: WeightLine): number => Math.abs(share - was.share);
  const [most] = lines
    .filter(({ band, share, was }) => {
      const ratio = Math.max(share, was.share) / Math.max(Math.min(share, was.share), 1e-9);
      return band === null && ratio > 1.1;
    })
    .sort((a, b) => change(b) - change(a));
  if (!most || change(most) < WORTH_TELLING)
    return "Each colour draws the eye about as much as the pattern’s own does.";
  return `Most changed: ${most.yarnName ?? most.colour} in ${most.colour} draws the eye ${againstWords(most.share, most.was.share)}.`;
}
