/** While a yarn is in her hand: what it would do in every place, the crossings that would arise, and the keys that carry it. */
import { useEffect, useMemo, useRef, type FocusEvent, type KeyboardEvent, type ReactNode, type RefObject } from "react";
import { createPortal } from "react-dom";
import { useBench } from "../shell/bench.ts";
import { useCarried, useTogether } from "../worker/answers.ts";
import type { LadderRung } from "../worker/api.ts";
import type { YarnDot } from "./yarnDots.ts";
import { placeWords, swapWords, type PlaceWords, type Verdict } from "./placeWords.ts";
import { swapped } from "./swaps.ts";
import type { CarryEnd } from "./useCarry.ts";
import { VerdictMark } from "./VerdictMark.tsx";

export interface Hand {
  readonly yarn: string;
  /** Above what it is held. */
  readonly at: CarryEnd | null;
  /** Held until it is laid down or put back, not only as long as a button is down. */
  readonly stays: boolean;
}

/** CSS pixels within the rails. */
export interface HandRoom {
  readonly height: number;
  readonly width: number;
  /** Where words begin and how long a line of them may be. */
  readonly words: { readonly from: number; readonly long: number };
  readonly left: number;
  readonly right: number;
  readonly colourY: ReadonlyMap<string, number>;
  readonly yarnY: ReadonlyMap<string, number>;
}

interface CarriedProps {
  readonly hand: Hand;
  readonly rungs: readonly LadderRung[];
  readonly yarns: readonly YarnDot[];
  readonly room: HandRoom;
}

interface Held {
  readonly words: readonly PlaceWords[];
  /** What is told of the place under the hand; null while it is being worked out. */
  readonly told: string | null;
  readonly failed: string | null;
  /** Colours whose links would cross one another. */
  readonly crossed: readonly (readonly [string, string])[];
}

function useHeld(hand: Hand, rungs: readonly LadderRung[], yarns: readonly YarnDot[]): Held {
  const { value, failed } = useCarried(hand.yarn);
  const other = hand.at?.side === "yarn" ? hand.at.id : null;
  const sets = useMemo(() => (other === null ? null : [swapped(rungs, hand.yarn, other)]), [rungs, hand.yarn, other]);
  const swap = useTogether(sets);
  const words = useMemo(
    () => (value && value[0]?.yarn === hand.yarn ? placeWords(value, rungs) : []),
    [value, hand.yarn, rungs],
  );
  const nameOf = (id: string) => yarns.find((yarn) => yarn.id === id)?.name ?? id;
  const name = nameOf(hand.yarn);
  if (other !== null) {
    const tried = swap.busy ? null : (swap.value?.tries[0] ?? null);
    const said = tried && swapWords(tried, swap.value!.now);
    return {
      words,
      told: said && `${name} and ${nameOf(other)} swapped: ${said.rows}; ${said.order}. ${VERDICTS[said.verdict]}.`,
      failed: failed ?? swap.failed,
      crossed: tried?.crossed ?? [],
    };
  }
  const place = words.find(({ colour }) => colour === hand.at?.id);
  const rung = rungs.find(({ colour }) => colour === hand.at?.id);
  return {
    words,
    told: place && rung ? `${name} for ${place.colour}, ${rung.name}: ${place.sentence}` : null,
    failed,
    crossed: place && place.verdict !== "here" ? place.crosses.map((one) => [place.colour, one]) : [],
  };
}

const VERDICTS: Readonly<Record<Verdict, string>> = {
  better: "Better than now",
  worse: "Worse than now",
  same: "Much as now",
  here: "As it is now",
  new: "Nothing is there yet",
};

interface BarProps extends CarriedProps {
  /** The rails, upon which the words stand. */
  readonly frame: RefObject<HTMLElement | null>;
  readonly onMove: (at: CarryEnd) => void;
  readonly onTake: (yarn: string) => void;
  readonly onLay: () => void;
  readonly onPutBack: () => void;
  /** The focus has gone elsewhere. */
  readonly onLeft: () => void;
}

export function Carried({
  hand,
  rungs,
  yarns,
  room,
  frame,
  onMove,
  onTake,
  onLay,
  onPutBack,
  onLeft,
}: BarProps): ReactNode {
  const { say } = useBench();
  const { words, told, failed, crossed } = useHeld(hand, rungs, yarns);
  const bar = useRef<HTMLDivElement>(null);
  const name = yarns.find(({ id }) => id === hand.yarn)?.name ?? hand.yarn;
  useEffect(() => {
    if (hand.stays) bar.current?.focus({ preventScroll: true });
  }, [hand.stays]);
  useEffect(() => {
    if (told && hand.stays) say(told);
  }, [told, hand.stays, say]);

  const onKeyDown = (event: KeyboardEvent) => {
    if (event.target !== event.currentTarget || event.ctrlKey || event.metaKey || event.altKey) return;
    const step = (by: number) => {
      const at = rungs.findIndex(({ colour }) => colour === hand.at?.id);
      const next = at < 0 ? 0 : Math.min(rungs.length - 1, Math.max(0, at + by));
      onMove({ side: "colour", id: rungs[next]!.colour });
    };
    const other = (by: number) => {
      const byLightness = yarns.toSorted((a, b) => b.L - a.L);
      const next = byLightness[byLightness.findIndex(({ id }) => id === hand.yarn) + by];
      if (next) onTake(next.id);
    };
    const keys: Readonly<Record<string, () => void>> = {
      ArrowDown: () => step(1),
      ArrowUp: () => step(-1),
      Home: () => step(-rungs.length),
      End: () => step(rungs.length),
      ArrowRight: () => other(1),
      ArrowLeft: () => other(-1),
      Enter: onLay,
      " ": onLay,
      Escape: onPutBack,
    };
    const letter = rungs.find(({ colour }) => colour === event.key);
    const act = letter ? () => onMove({ side: "colour", id: letter.colour }) : keys[event.key];
    if (!act) return;
    event.preventDefault();
    act();
  };

  return (
    <>
      {frame.current &&
        createPortal(
          <div className="would" aria-hidden="true">
            <MarkWords words={words} />
            <WouldCross hand={hand} rungs={rungs} room={room} crossed={crossed} />
            {words.map((one) => (
              <p
                key={one.colour}
                id={`place-${one.colour}`}
                className="place-words"
                data-at={hand.at?.side === "colour" && hand.at.id === one.colour}
                data-verdict={one.verdict}
                style={{ top: room.colourY.get(one.colour)! - 15, left: room.words.from, width: room.words.long }}
              >
                <VerdictMark verdict={one.verdict} best={one.best} />
                <span>
                  {one.rows}
                  <span className="place-order">{one.order}</span>
                </span>
              </p>
            ))}
          </div>,
          frame.current,
        )}
      <div
        ref={bar}
        className="hand-bar"
        {...(hand.stays && {
          role: "application",
          tabIndex: 0,
          "aria-label": `${name} in your hand. Up and down walk along the letters, left and right take another yarn, Enter lays it down, Escape puts it back.`,
          onKeyDown,
          onBlur: (event: FocusEvent) => {
            // A press on a letter or on another yarn lays it down; anywhere else it is put back.
            const within = event.relatedTarget?.closest(".rails, .hand-back") ?? null;
            if (!within && document.hasFocus()) onLeft();
          },
        })}
      >
        <p className="hand-told" role={failed ? "alert" : undefined}>
          {failed ??
            told ??
            (words.length === 0 ? `${name} is being tried in every place…` : `${name}, above no place.`)}
        </p>
        {hand.stays && <p className="hand-keys">↑ ↓ place · ← → yarn · Enter lays it down · Esc puts it back</p>}
      </div>
      {hand.stays && (
        <button type="button" className="button hand-back" onClick={onPutBack}>
          Put {name} back
        </button>
      )}
    </>
  );
}

function MarkWords({ words }: { readonly words: readonly PlaceWords[] }): ReactNode {
  return (
    <p className="hand-marks">
      {(["better", "same", "worse"] as const).map((verdict) => (
        <span key={verdict}>
          <VerdictMark verdict={verdict} best={false} /> {verdict === "same" ? "as now" : verdict}
        </span>
      ))}
      {words.some(({ best }) => best) && (
        <span>
          <VerdictMark verdict="better" best /> best
        </span>
      )}
    </p>
  );
}

interface WouldCrossProps {
  readonly hand: Hand;
  readonly rungs: readonly LadderRung[];
  readonly room: HandRoom;
  readonly crossed: readonly (readonly [string, string])[];
}

/** The links as they would be where they would cross: dashed, and heavy as those that cross already. */
function WouldCross({ hand, rungs, room, crossed }: WouldCrossProps): ReactNode {
  const { left, right, colourY, yarnY } = room;
  const after = new Map(
    Object.entries(
      hand.at?.side === "colour" ? { [hand.at.id]: hand.yarn } : hand.at ? swapped(rungs, hand.yarn, hand.at.id) : {},
    ),
  );
  const colours = new Set([...after.keys(), ...crossed.filter((pair) => pair.some((one) => after.has(one))).flat()]);
  const heavy = new Set(crossed.flat());
  const bend = (right - left) * 0.45;
  return (
    <svg width={room.width} height={room.height}>
      {[...colours].map((colour) => {
        const from = colourY.get(colour);
        const to = yarnY.get(after.get(colour) ?? rungs.find((rung) => rung.colour === colour)?.yarn ?? "");
        return from === undefined || to === undefined ? null : (
          <path
            key={colour}
            className={heavy.has(colour) ? "link would-link heavy" : "link would-link"}
            data-would={colour}
            d={`M${left} ${from}C${left + bend} ${from} ${right - bend} ${to} ${right} ${to}`}
          />
        );
      })}
    </svg>
  );
}
