/** Her yarns for one chart colour, each with what it would do there: put in order, filtered by typing, walked by arrow keys, taken by Enter. */
import { useMemo, useState, type ReactNode } from "react";
import { Autocomplete } from "react-aria-components/Autocomplete";
import { Button } from "react-aria-components/Button";
import { Dialog } from "react-aria-components/Dialog";
import { Input } from "react-aria-components/Input";
import { Label } from "react-aria-components/Label";
import { ListBox, ListBoxItem } from "react-aria-components/ListBox";
import { Popover } from "react-aria-components/Popover";
import { SearchField } from "react-aria-components/SearchField";
import { ListLayout, Virtualizer } from "react-aria-components/Virtualizer";
import { deltaE2000 } from "../../colour/difference.ts";
import type { Lab } from "../../colour/lab.ts";
import { metresWords, wholeWords } from "../shell/words.ts";
import { useBench } from "../shell/bench.ts";
import { NumberHelp } from "../ui/NumberHelp.tsx";
import { useTrial } from "../worker/answers.ts";
import type { LadderRung, TrialLine, TrialResult } from "../worker/api.ts";
import { Glimpse } from "./Glimpse.tsx";
import type { YarnDot } from "./yarnDots.ts";
import { SwapList } from "./SwapList.tsx";
import {
  crossWords,
  inOrder,
  rowsShownWords,
  weakestWords,
  weightWords,
  YARN_ORDERS,
  type YarnOrder,
} from "./trialWords.ts";

interface YarnPickerProps {
  readonly line: LadderRung;
  readonly lines: readonly LadderRung[];
  readonly yarns: readonly YarnDot[];
  /** The pattern's colour in that place. */
  readonly was: Lab;
  readonly anchor: HTMLElement | null;
  /** The yarn under her hand or her keys, shown on the fabric until she moves on. */
  readonly onTry: (yarn: string | null) => void;
  readonly onChoose: (yarn: string) => void;
  /** The yarn with which the letter's own would change places. */
  readonly onTrySwap: (yarn: string | null) => void;
  readonly onSwap: (yarn: string) => void;
  /** The letter's yarn is taken up, to be carried along the ladder. */
  readonly onCarry: () => void;
  readonly onClose: () => void;
}

/** CSS pixels of the list with some room around it. */
const WIDTH_ABOUT = 400;

/** CSS pixels of a row of the list before it has been measured: a name and two lines. */
const ROW_ABOUT = 66;

interface YarnItem extends YarnDot {
  readonly apart: number;
  readonly deltaE00: number;
  readonly trial: TrialLine | null;
}

export function YarnPicker(props: YarnPickerProps): ReactNode {
  const { line, lines, yarns, was, anchor, onTry, onChoose, onTrySwap, onSwap, onCarry, onClose } = props;
  const [order, setOrder] = useState<YarnOrder>("lightness");
  const [swapping, setSwapping] = useState(false);
  const { value: tried, busy, failed } = useTrial(line.colour);
  const trial = tried?.colour === line.colour ? tried : null;
  const items = useMemo((): YarnItem[] => {
    const trials = new Map(trial?.trials.map((one) => [one.yarn, one]));
    return yarns.map((yarn) => ({
      ...yarn,
      apart: yarn.L - was[0],
      deltaE00: deltaE2000(yarn.lab, was),
      trial: trials.get(yarn.id) ?? null,
    }));
  }, [yarns, was, trial]);
  const fewestLost = useMemo(() => Math.min(...(trial?.trials.map(({ rows }) => rows.lost) ?? [0])), [trial]);
  const sorted = useMemo(() => inOrder(items, order, trial?.was ?? null), [items, order, trial]);
  if (!anchor) return null;
  const contains = (text: string, typed: string) => text.toLowerCase().includes(typed.trim().toLowerCase());
  // Beside the whole ladder, so that the rails stay in view while she chooses; where there is no room for that it lies over the
  // ladder, for the fabric must be seen on which a yarn is tried.
  const edge = anchor.closest(".panel")?.getBoundingClientRect().right ?? 0;
  const over = window.innerWidth < edge + WIDTH_ABOUT;
  const beside = edge - anchor.getBoundingClientRect().right;
  return (
    <Popover
      triggerRef={{ current: anchor }}
      isOpen
      placement={over ? "bottom left" : "right"}
      offset={over ? 6 : Math.max(0, beside) + 6}
      className="popover"
      onOpenChange={(open) => !open && onClose()}
    >
      <Dialog className="yarn-picker" aria-label={`A yarn for ${line.colour}`}>
        <div className="yarn-picker-head">
          <span className="swatch" style={{ background: line.was.hex }} />
          <p>
            <strong>
              {line.colour}, {line.name}
            </strong>
            <br />
            {line.was.class} in the pattern, L* {Math.round(line.was.L)}
          </p>
          <Button className="tool" aria-label="Close" onPress={onClose}>
            <svg width="16" height="16" viewBox="0 0 16 16" aria-hidden="true">
              <path d="M3 3 13 13M13 3 3 13" stroke="currentColor" strokeWidth="1.7" strokeLinecap="round" />
            </svg>
          </Button>
        </div>
        {!swapping && <TrialHead trial={trial} busy={busy} failed={failed} />}
        {line.yarn !== null && !swapping && (
          <div className="picker-acts">
            <Button className="button" onPress={() => setSwapping(true)}>
              Swap with…
            </Button>
            <Button className="button" onPress={onCarry}>
              Carry {line.yarnName ?? line.yarn} along
            </Button>
          </div>
        )}
        {swapping ? (
          <SwapList
            line={line}
            lines={lines}
            yarns={yarns}
            onTry={onTrySwap}
            onSwap={(yarn) => {
              onSwap(yarn);
              onClose();
            }}
          />
        ) : (
          <Autocomplete filter={contains}>
            <SearchField autoFocus className="yarn-search">
              <Label className="unseen">Your yarns</Label>
              {/* A text field that rules a list is a combobox to a screen reader, whatever else it is. */}
              <Input role="combobox" aria-expanded placeholder="name of a yarn" className="field" />
            </SearchField>
            <fieldset className="choice yarn-order">
              <legend className="unseen">First of all the yarn that</legend>
              {YARN_ORDERS.map(({ order: one, name, promise, needs }) => (
                <label key={one} title={`First of all the yarn that ${promise}`}>
                  <input
                    type="radio"
                    name="yarn-order"
                    aria-label={promise}
                    checked={order === one}
                    disabled={needs && !trial}
                    onChange={() => setOrder(one)}
                  />
                  <span>{name}</span>
                </label>
              ))}
            </fieldset>
            <Virtualizer layout={ListLayout} layoutOptions={{ estimatedRowSize: ROW_ABOUT }}>
              <ListBox
                aria-label={`Yarns for ${line.colour}`}
                className="yarn-list"
                selectionMode="single"
                disallowEmptySelection
                selectedKeys={line.yarn ? [line.yarn] : []}
                items={sorted}
                dependencies={[line, trial, order]}
                renderEmptyState={() => (
                  <p className="empty">{yarns.length === 0 ? "There are no yarns yet." : "No yarn has that name."}</p>
                )}
                onSelectionChange={(keys) => {
                  const [key] = keys === "all" ? [] : [...keys];
                  if (key !== undefined) onChoose(String(key));
                  onClose();
                }}
              >
                {(yarn) => (
                  <ListBoxItem id={yarn.id} textValue={yarn.name} className="yarn-item">
                    {({ isFocused, isHovered }) => (
                      <>
                        <Glimpse yarn={yarn.id} wanted={isHovered || isFocused} onTry={onTry} />
                        <span className="swatch round" style={{ background: yarn.hex }} />
                        <span className="yarn-item-name">{yarn.name}</span>{" "}
                        <span className="yarn-item-more">{apartWords(yarn, line, lines, order)}</span>
                        <TrialWords yarn={yarn} was={trial?.was ?? null} fewestLost={fewestLost} />
                      </>
                    )}
                  </ListBoxItem>
                )}
              </ListBox>
            </Virtualizer>
          </Autocomplete>
        )}
      </Dialog>
    </Popover>
  );
}

interface TrialHeadProps {
  readonly trial: TrialResult | null;
  readonly busy: boolean;
  readonly failed: string | null;
}

/** What the pattern's own colours do in this place: what every yarn below is held against. */
function TrialHead({ trial, busy, failed }: TrialHeadProps): ReactNode {
  const { view } = useBench();
  if (failed)
    return (
      <p className="trial-head" role="alert">
        {failed}
      </p>
    );
  if (!trial)
    return (
      <p className="trial-head" role="status">
        {busy ? "Every yarn is being tried here…" : "No yarn has been tried here yet."}
      </p>
    );
  const weakest = weakestWords(trial.was);
  return (
    <div className="trial-head">
      <p>
        The pattern’s own, at {metresWords(view.distance)}: {rowsShownWords(trial.was.rows)}
        {weakest && `; ${weakest}`}.
      </p>
      <NumberHelp of={["trial", "words", "visualWeight", "lightness", "deltaE00"]} />
    </div>
  );
}

interface TrialWordsProps {
  readonly yarn: YarnItem;
  readonly was: TrialResult["was"] | null;
  /** Rows that are lost whichever yarn is taken are not this one's fault. */
  readonly fewestLost: number;
}

function TrialWords({ yarn: { trial }, was, fewestLost }: TrialWordsProps): ReactNode {
  if (!trial || !was) return null;
  const first = [rowsShownWords(trial.rows), weakestWords(trial)].filter((words) => words !== null).join("; ");
  const second = [crossWords(trial.crosses), weightWords(trial, was)].filter((words) => words !== null).join("; ");
  return (
    <span className="yarn-item-trial" data-worse={trial.rows.lost > fewestLost}>
      {" "}
      {first}
      {second && <span>{second}</span>}
    </span>
  );
}

function apartWords(
  { id, apart, deltaE00 }: YarnItem,
  line: LadderRung,
  lines: readonly LadderRung[],
  order: YarnOrder,
): string {
  const steps = Math.round(apart);
  const light = steps === 0 ? "as light" : `${Math.abs(steps)} ${steps > 0 ? "lighter" : "darker"}`;
  const words = order === "colour" ? `ΔE00 ${wholeWords(deltaE00)}` : light;
  const users = lines.filter((one) => one.yarn === id).map(({ colour }) => colour);
  if (users.includes(line.colour)) return `${words} · here now`;
  return users.length > 0 ? `${words} · in ${users.join(", ")}` : words;
}
