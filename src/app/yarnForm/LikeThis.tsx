/** "Like this but lighter": from a yarn she has, or a colour of the pattern, by steps that have words. */
import { useMemo, useState, type ReactNode } from "react";
import { deltaE2000 } from "../../colour/difference.ts";
import { hexFromLab, type Lab } from "../../colour/lab.ts";
import { labOfShade } from "../../colour/shade.ts";
import { stepped, STEP_SIZES, type ShadeStep, type StepSize } from "../../colour/shadeSteps.ts";
import { hasShade, sortByLightness } from "../../yarn/stash.ts";
import { labOfYarn, uncertaintyOfYarn, DEFAULT_UNCERTAINTY } from "../../yarn/yarn.ts";
import { useBench } from "../shell/bench.ts";
import { useShelf } from "../stash/useShelf.ts";
import { Choice } from "../wishes/controls.tsx";
import { likeUncertainty } from "./shadeDraft.ts";
import { SelectField } from "./YarnFieldset.tsx";
import type { ShadeWayProps } from "./shadeDraft.ts";

interface Source {
  readonly key: string;
  readonly name: string;
  readonly lab: Lab;
  readonly uncertainty: number;
}

const STEPS: readonly ShadeStep[] = ["lighter", "darker", "warmer", "cooler", "greyer", "more saturated"];
const SIZES: readonly (readonly [StepSize, string])[] = [
  ["small", `small, ${STEP_SIZES.small.lightness} of L* or ${STEP_SIZES.small.colour} of a*b*`],
  ["large", `larger, ${STEP_SIZES.large.lightness} or ${STEP_SIZES.large.colour}`],
];

export function LikeThis({ onShade }: ShadeWayProps): ReactNode {
  const { project } = useBench();
  const { shelf } = useShelf();
  const yarns = useMemo(
    () =>
      sortByLightness(shelf.yarns.filter(hasShade)).map((yarn): Source => {
        return { key: `yarn ${yarn.id}`, name: yarn.name, lab: labOfYarn(yarn), uncertainty: uncertaintyOfYarn(yarn) };
      }),
    [shelf],
  );
  const colours = useMemo(
    () =>
      (project?.pattern.colours ?? []).map(({ id, name, shade }): Source => ({
        key: `colour ${id}`,
        name: name ? `${id}, ${name}` : id,
        lab: labOfShade(shade),
        uncertainty: shade.uncertainty ?? DEFAULT_UNCERTAINTY,
      })),
    [project],
  );
  const [source, setSource] = useState<Source | null>(null);
  const [said, setSaid] = useState<readonly (readonly [ShadeStep, StepSize])[]>([]);
  const [size, setSize] = useState<StepSize>("small");
  const reached = source && said.reduce((lab, [step, by]) => stepped(lab, step, by), source.lab);
  const moved = source && reached ? deltaE2000(source.lab, reached) : 0;

  const give = (from: Source, steps: typeof said): void => {
    setSource(from);
    setSaid(steps);
    const lab = steps.reduce((at, [step, by]) => stepped(at, step, by), from.lab);
    onShade({ lab, uncertainty: likeUncertainty(from.uncertainty, deltaE2000(from.lab, lab)), from: "eye" });
  };

  return (
    <div className="like-this">
      <SelectField
        name="Like"
        value={source?.key ?? ""}
        onChoose={(key) => {
          const next = [...yarns, ...colours].find((one) => one.key === key);
          if (next) give(next, []);
        }}
      >
        <option value="" disabled>
          a yarn or a colour of the pattern
        </option>
        <optgroup label="Your yarns, light to dark">
          {yarns.map(({ key, name }) => (
            <option key={key} value={key}>
              {name}
            </option>
          ))}
        </optgroup>
        {colours.length > 0 && (
          <optgroup label="Colours of the pattern">
            {colours.map(({ key, name }) => (
              <option key={key} value={key}>
                {name}
              </option>
            ))}
          </optgroup>
        )}
      </SelectField>
      {source && reached && (
        <>
          <Choice legend="Steps" value={size} options={SIZES} onChoose={setSize} />
          <div className="like-steps" role="group" aria-label="But">
            <span aria-hidden="true">but</span>
            {STEPS.map((step) => {
              const next = stepped(reached, step, size);
              const isStill = next.every((part, at) => Math.abs(part - reached[at]!) < 1e-9);
              return (
                <button
                  key={step}
                  type="button"
                  className="button"
                  disabled={isStill}
                  onClick={() => give(source, [...said, [step, size]])}
                >
                  <span className="swatch small" style={{ background: hexFromLab(next) }} />
                  {step}
                </button>
              );
            })}
          </div>
          <div className="like-beside">
            <span className="like-patch" style={{ background: hexFromLab(source.lab) }} />
            <span className="like-patch" style={{ background: hexFromLab(reached) }} />
            <p role="status">
              {said.length === 0
                ? `As ${source.name}.`
                : `${source.name}, but ${saidWords(said)}: ${moved.toFixed(1)} ΔE00 from it.`}
            </p>
            {said.length > 0 && (
              <button type="button" className="button" onClick={() => give(source, said.slice(0, -1))}>
                One step back
              </button>
            )}
          </div>
        </>
      )}
    </div>
  );
}

/** "lighter twice, then a larger step warmer". */
function saidWords(said: readonly (readonly [ShadeStep, StepSize])[]): string {
  const runs: { words: string; count: number }[] = [];
  for (const [step, size] of said) {
    const words = size === "small" ? step : `a larger step ${step}`;
    const last = runs.at(-1);
    if (last?.words === words) last.count++;
    else runs.push({ words, count: 1 });
  }
  return runs.map(({ words, count }) => (count === 1 ? words : `${words} ${count} times`)).join(", then ");
}
