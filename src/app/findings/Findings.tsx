/** The findings: three shown, worst first, the rest counted; each goes to its place and offers the change that mends it. */
import { useEffect, useState, type ReactNode } from "react";
import type { Finding, Mend } from "../../audit/finding.ts";
import type { Edit } from "../../document/edit.ts";
import { hexFromLab } from "../../colour/lab.ts";
import type { Project } from "../../document/project.ts";
import { labOfYarn } from "../../yarn/yarn.ts";
import { useBench } from "../shell/bench.ts";
import { rowsWords } from "../shell/words.ts";
import { applyEdit, withEdits } from "../store/edits.ts";
import { Help } from "../ui/Help.tsx";
import { NumberHelp } from "../ui/NumberHelp.tsx";
import { useSeenProject } from "../ui/seenProject.ts";
import { brokenSentence } from "../worker/answers.ts";
import type { NumberKey } from "../ui/numberNames.ts";
import { EyeNote } from "./EyeNote.tsx";
import { numberWords } from "./numberWords.ts";

/** More at once is nagging. */
const SHOWN_FIRST = 3;

export function Findings(): ReactNode {
  const { check, checking, mending, checkFailed, colourway } = useBench();
  const seen = useSeenProject();
  const [all, setAll] = useState(false);
  useEffect(() => setAll(false), [colourway?.id]);
  const findings = check?.findings ?? [];
  const bare = check?.ladder.filter(({ yarn }) => yarn === null).map(({ colour }) => colour) ?? [];
  const shown = all ? findings : findings.slice(0, SHOWN_FIRST);
  const rest = findings.length - shown.length;
  return (
    <section aria-labelledby="findings-title" aria-busy={checking}>
      <h2 id="findings-title" tabIndex={-1}>
        Findings
        {check && <span className="count">{countWords(findings)}</span>}
      </h2>
      {bare.length > 0 && <p>{bareSentence(bare)}</p>}
      {checkFailed && (
        <p className="empty" role="alert">
          {checkFailed}
        </p>
      )}
      {!check ? (
        !checkFailed && (
          <p className="empty">{colourway ? "Looking…" : "There is nothing to look at without a colourway."}</p>
        )
      ) : findings.length === 0 ? (
        <p className="empty">Nothing to mend: every row shows as it does in the pattern, or as you wished.</p>
      ) : (
        <ol className="findings">
          {shown.map((finding) => (
            <FindingCard key={finding.id} finding={finding} seen={seen} />
          ))}
        </ol>
      )}
      {rest > 0 && (
        <button type="button" className="button quiet" aria-expanded={false} onClick={() => setAll(true)}>
          {rest} more: {restWords(findings.slice(shown.length))}
        </button>
      )}
      {all && findings.length > SHOWN_FIRST && (
        <button type="button" className="button quiet" aria-expanded onClick={() => setAll(false)}>
          Only the first three
        </button>
      )}
      {findings.length > 0 && mending && <p className="mending">Trying your yarns for what would mend it…</p>}
      {check && (
        <>
          <p className="caution">
            A model of {check.deficiency ? `${check.deficiency.kind} eyes` : "ordinary eyesight"}, not tested on
            knitting; a swatch settles it.
          </p>
          <EyeNote eye={check.eye} />
          <FindingsHelp />
        </>
      )}
    </section>
  );
}

function FindingsHelp(): ReactNode {
  return (
    <Help summary="How to read the findings">
      <p>
        V says how far a row’s contrast lies above what an eye can just see from there, in that light: under 1 it is
        lost, under 3 faint, under 10 clear, above that strong. A row in one colour alone has no mark.
      </p>
      <p>
        “Reads to” is the farthest distance at which it is still clear. What lies in brackets is how far off the word
        may be.
      </p>
      <p>
        A fault: something that shows in the pattern does not show here, or a yarn is not enough. A doubt may be well; a
        swatch or your eye settles it. A note is only worth knowing.
      </p>
    </Help>
  );
}

const SEVERITIES = { fault: "fault", doubt: "doubt", note: "note" } as const;

function countWords(findings: readonly Finding[]): string {
  if (findings.length === 0) return "none";
  return (["fault", "doubt", "note"] as const)
    .map((severity) => ({ severity, count: findings.filter((finding) => finding.severity === severity).length }))
    .filter(({ count }) => count > 0)
    .map(({ severity, count }) => `${count} ${severity}${count === 1 ? "" : "s"}`)
    .join(", ");
}

function bareSentence(colours: readonly string[]): string {
  const names =
    colours.length > 3 ? `${colours.slice(0, 3).join(", ")} and ${colours.length - 3} more` : colours.join(", ");
  return `${names} ${colours.length === 1 ? "has" : "have"} no yarn yet and ${colours.length === 1 ? "is" : "are"} judged in the pattern’s own colours.`;
}

/** The first two by name, so that she knows whether to look. */
function restWords(findings: readonly Finding[]): string {
  const names = findings.slice(0, 2).map(({ headline }) => headline.charAt(0).toLowerCase() + headline.slice(1));
  return names.join("; ") + (findings.length > 2 ? "; …" : "");
}

interface FindingCardProps {
  readonly finding: Finding;
  /** The project as the chosen eye sees it. */
  readonly seen: Project | null;
}

function FindingCard({ finding, seen }: FindingCardProps): ReactNode {
  const { project, showSpot, spot, say, commit } = useBench();
  const { where, meant } = finding;
  const here = spot?.chart === where.chart && spot.rows[0] === where.rows[0] && spot.rows[1] === where.rows[1];
  const height = project?.pattern.charts.find(({ id }) => id === where.chart)?.rows.length;
  const everywhere = where.rows[0] === 1 && where.rows[1] === height;
  const numbers = numberWords(finding);
  const helps = new Set<NumberKey>(numbers.map(({ help }) => help));
  if (finding.mends?.length) helps.add("mend");
  return (
    <li className="finding" data-severity={finding.severity}>
      <h3>
        <SeverityMark severity={finding.severity} />
        <span className="unseen">{SEVERITIES[finding.severity]}: </span>
        {finding.headline}
      </h3>
      <p>{finding.sentence}</p>
      {numbers.length > 0 && (
        <div className="numbers-line">
          <dl className="numbers">
            {numbers.map(({ name, value }) => (
              <div key={name}>
                <dt>{name}</dt>
                <dd>{value}</dd>
              </div>
            ))}
          </dl>
          <NumberHelp of={[...helps]} about={`the numbers of “${finding.headline}”`} />
        </div>
      )}
      <div className="finding-ways">
        {!everywhere && (
          <button
            type="button"
            className="button show"
            aria-pressed={here}
            onClick={() => {
              // Where parts take turns the frame may be out of sight: then the press leads to it.
              const seen = here && document.querySelector(".fabric-scroll")?.checkVisibility();
              showSpot(seen ? null : { chart: where.chart, rows: where.rows });
              say(seen ? "The frame is taken away." : `The fabric shows ${rowsWords(where.rows)}, framed.`);
            }}
          >
            Show {rowsWords(where.rows)}
          </button>
        )}
        {project &&
          seen &&
          finding.mends?.map((mend, i) => (
            <MendButton key={i} mend={mend} finding={finding} project={project} seen={seen} />
          ))}
        {meant && (
          <button
            type="button"
            className="button"
            onClick={() => {
              const { chart, rows } = meant;
              const edit: Edit = { kind: "declareBand", chart, rows: [...rows], fields: { meant: true } };
              if (commit([edit], `saying that ${rowsWords(rows)} are meant so`))
                say("It stays as it is, and is not told of again.");
            }}
          >
            It is meant so
          </button>
        )}
      </div>
    </li>
  );
}

function SeverityMark({ severity }: { readonly severity: Finding["severity"] }): ReactNode {
  return (
    <svg className="severity" width="16" height="16" viewBox="0 0 16 16" aria-hidden="true">
      {severity === "fault" && (
        <>
          <rect width="16" height="16" rx="3" fill="currentColor" />
          <path d="M4.5 4.5l7 7M11.5 4.5l-7 7" stroke="#fff" strokeWidth="1.8" strokeLinecap="round" />
        </>
      )}
      {severity === "doubt" && (
        <>
          <rect x="0.8" y="0.8" width="14.4" height="14.4" rx="3" fill="none" stroke="currentColor" strokeWidth="1.6" />
          <path d="M4 9.5c2-4 4 2.5 8-3" fill="none" stroke="currentColor" strokeWidth="1.6" strokeLinecap="round" />
        </>
      )}
      {severity === "note" && <circle cx="8" cy="8" r="2.6" fill="currentColor" />}
    </svg>
  );
}

function MendButton({
  mend,
  finding,
  project,
  seen,
}: {
  readonly mend: Mend;
  readonly finding: Finding;
  readonly project: Project;
  readonly seen: Project;
}): ReactNode {
  const { colourway, tryChange, showSpot, preview, mending, tell } = useBench();
  if (!colourway) return null;
  const ofStitches = mend.kind === "shift" || mend.kind === "spacing" || mend.kind === "start";
  return (
    <button
      type="button"
      className="button mend"
      aria-pressed={preview?.step.name === mend.change}
      onClick={(event) => {
        const returnTo = event.currentTarget;
        showSpot({ chart: finding.where.chart, rows: finding.where.rows });
        const show = () =>
          tryChange({
            title: mend.sentence,
            sentence: `For: ${finding.headline}.`,
            project: mend.edits.reduce(applyEdit, project),
            colourway: colourway.id,
            step: { name: mend.change, colourway: colourway.id },
            returnTo,
          });
        withEdits(mend.edits, show, (reason) =>
          tell({ title: "The change cannot be shown", sentences: [brokenSentence(reason)] }),
        );
      }}
    >
      <span className="mend-yarns" aria-hidden="true">
        {!ofStitches && <YarnSwatch project={seen} yarn={mend.from} />}
        <svg width="14" height="10" viewBox="0 0 14 10">
          <path d="M1 5h11M8.5 1.5 12 5 8.5 8.5" fill="none" stroke="currentColor" strokeWidth="1.4" />
        </svg>
        {!ofStitches && <YarnSwatch project={seen} yarn={mend.to} />}
      </span>
      <span>
        {mend.change}
        {/* While it is tried anew its old outcome belongs to another distance; its line is kept, so that nothing jumps. */}
        {mend.effect && (
          <span className="mend-by" data-stale={mending}>
            {mend.effect}
          </span>
        )}
      </span>
    </button>
  );
}

export function YarnSwatch({ project, yarn }: { readonly project: Project; readonly yarn: string | null }): ReactNode {
  const found = project.yarns.find(({ id }) => id === yarn);
  return <span className="swatch round small" style={found ? { background: hexFromLab(labOfYarn(found)) } : {}} />;
}
