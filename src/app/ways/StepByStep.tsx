/** Many colours decided in the order in which one leans on the other: each step has a few choices, and what would follow from each. */
import { useEffect, useLayoutEffect, useRef, useState, type ReactNode } from "react";
import type { Project } from "../../document/project.ts";
import type { Wish } from "../../recolour/wish.ts";
import { YarnSwatch } from "../findings/Findings.tsx";
import { useBench } from "../shell/bench.ts";
import { NumberHelp } from "../ui/NumberHelp.tsx";
import { brokenSentence } from "../worker/answers.ts";
import type { DecidingStep, StepOption } from "../worker/api.ts";
import { once, quickJobs } from "../worker/client.ts";
import { SmallFabric } from "./SmallFabric.tsx";
import { useTryWay } from "./useTryWay.ts";

interface StepByStepProps {
  readonly project: Project;
  readonly from: string;
  readonly wish: Wish;
  readonly onClose: () => void;
}

/** What was chosen in a step, and the colourway that follows from it. */
interface Decision {
  readonly step: DecidingStep;
  readonly option: StepOption;
}

/** A step that has not been worked out by then gives what it has: shorter than patience. */
const SECONDS = 20;
const WIDTH = 132;
const HEIGHT = 280;

export function StepByStep({ project, from, wish, onClose }: StepByStepProps): ReactNode {
  const dialog = useRef<HTMLDialogElement>(null);
  const [steps, setSteps] = useState<readonly DecidingStep[] | null>(null);
  const [decisions, setDecisions] = useState<readonly Decision[]>([]);
  const [failed, setFailed] = useState<string | null>(null);
  const tryWay = useTryWay(from);
  useLayoutEffect(() => {
    if (!dialog.current?.open) dialog.current?.showModal();
  }, []);
  useEffect(() => {
    let live = true;
    quickJobs()
      .decidingOrder(project, from)
      .then(
        (found) => live && setSteps(found),
        (reason: unknown) => live && setFailed(brokenSentence(reason)),
      );
    return () => {
      live = false;
    };
  }, [project, from]);
  const step = steps?.[decisions.length];
  const decided = Object.assign({}, ...decisions.map(({ option }) => option.yarns)) as Record<string, string>;
  const last = decisions.at(-1);
  const nameOf = (id: string | undefined): string => project.yarns.find((yarn) => yarn.id === id)?.name ?? "";
  return (
    <dialog ref={dialog} className="message side-by-side" aria-labelledby="steps-title" onClose={onClose}>
      <h2 id="steps-title">Decide step by step</h2>
      {failed && <p role="alert">{failed}</p>}
      {!steps && !failed && <p role="status">Looking at what leans on what…</p>}
      {steps && (
        <ol className="steps">
          {steps.map(({ title, colours, why }, i) => (
            <li key={title} aria-current={i === decisions.length ? "step" : undefined}>
              <p className="way-place">
                {title}: {colours.join(", ")}
              </p>
              {i === decisions.length ? (
                <p>{why}</p>
              ) : (
                i < decisions.length && (
                  <p className="way-next">
                    {colours.map((colour) => (
                      <span key={colour} className="step-yarn">
                        <YarnSwatch project={project} yarn={decided[colour] ?? null} /> {nameOf(decided[colour])}
                      </span>
                    ))}
                  </p>
                )
              )}
            </li>
          ))}
        </ol>
      )}
      {step && (
        <Options
          key={decisions.length}
          project={project}
          from={from}
          wish={wish}
          step={step}
          decided={decided}
          onTake={(option) => setDecisions([...decisions, { step, option }])}
        />
      )}
      {steps && !step && last && (
        <div className="steps-end">
          <p>Everything is decided.</p>
          <button
            type="button"
            className="button strong"
            onClick={(event) => {
              const button = event.currentTarget;
              dialog.current?.close();
              const because = decisions.map(
                ({ step: { title }, option }) =>
                  `${title}: ${Object.entries(option.yarns)
                    .map(([colour, yarn]) => `${nameOf(yarn)} for ${colour}`)
                    .join(", ")}.`,
              );
              void tryWay({ name: "step by step", ...last.option.completion, because }, button);
            }}
          >
            Try it on the fabric
          </button>
        </div>
      )}
      <form method="dialog" className="cloth-end">
        <button
          type="button"
          className="button"
          disabled={decisions.length === 0}
          onClick={() => setDecisions(decisions.slice(0, -1))}
        >
          One step back
        </button>
        <button className="button">Close</button>
      </form>
    </dialog>
  );
}

interface OptionsProps {
  readonly project: Project;
  readonly from: string;
  readonly wish: Wish;
  readonly step: DecidingStep;
  readonly decided: Readonly<Record<string, string>>;
  readonly onTake: (option: StepOption) => void;
}

function Options({ project, from, wish, step, decided, onTake }: OptionsProps): ReactNode {
  const { view, say } = useBench();
  const [options, setOptions] = useState<readonly StepOption[] | null>(null);
  const [failed, setFailed] = useState<string | null>(null);
  const { distance, light } = view;
  const question = useRef({ wish, decided });
  question.current = { wish, decided };
  useEffect(() => {
    let live = true;
    say(`${step.title}: working out the choices.`);
    once((jobs) =>
      jobs.decideNext(project, {
        colourway: from,
        ...question.current,
        colours: step.colours,
        distance,
        light,
        seconds: SECONDS,
      }),
    ).then(
      ({ options: found }) => {
        if (!live) return;
        setOptions(found);
        say(`${step.title}: ${found.length} ${found.length === 1 ? "choice" : "choices"}.`);
      },
      (reason: unknown) => live && setFailed(brokenSentence(reason)),
    );
    return () => {
      live = false;
    };
  }, [project, from, step, distance, light, say]);
  if (failed) return <p role="alert">{failed}</p>;
  if (!options) return <p role="status">Working out what would follow from each choice…</p>;
  if (options.length === 0)
    return <p>Nothing that you own fits here with what is decided. Go one step back, or change a wish.</p>;
  return (
    <ul className="side-row" aria-label={`Choices for ${step.colours.join(", ")}`}>
      {options.map((option, i) => (
        <li key={i}>
          <SmallFabric
            of={`step ${JSON.stringify(option.completion)}`}
            from={() =>
              quickJobs().applyWay(project, { name: "", ...option.completion, because: [] }, { name: "", from })
            }
            width={WIDTH}
            height={HEIGHT}
          />
          <ul className="side-yarns">
            {step.colours.map((colour) => (
              <li key={colour}>
                <YarnSwatch project={project} yarn={option.yarns[colour] ?? null} /> {colour} ·{" "}
                {project.yarns.find(({ id }) => id === option.yarns[colour])?.name}
              </li>
            ))}
          </ul>
          <p className="way-next">
            {i === 0 ? "the best from here" : option.more < 0.05 ? "as good" : `${option.more.toFixed(1)} worse`}
            {i === 0 && (
              <>
                {" "}
                <NumberHelp of="score" />
              </>
            )}
          </p>
          <button
            type="button"
            className={i === 0 ? "button strong" : "button"}
            aria-label={`Take ${step.colours
              .map((colour) => `${project.yarns.find(({ id }) => id === option.yarns[colour])?.name} for ${colour}`)
              .join(", ")}`}
            onClick={() => onTake(option)}
          >
            Take these
          </button>
        </li>
      ))}
    </ul>
  );
}
