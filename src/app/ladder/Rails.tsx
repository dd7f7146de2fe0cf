/** The two rails with all that is on them: letters to press, yarns to carry, and what is in her hand. */
import {
  lazy,
  Suspense,
  useEffect,
  useLayoutEffect,
  useMemo,
  useRef,
  useState,
  type CSSProperties,
  type ReactNode,
} from "react";
import type { Lab } from "../../colour/lab.ts";
import { labOfShade } from "../../colour/shade.ts";
import type { Project } from "../../document/project.ts";
import { useBench } from "../shell/bench.ts";
import { useCalm } from "../shell/useCalm.ts";
import type { LadderRung } from "../worker/api.ts";
import { crossedPairs, lightnessSpan, orderSentence, nameLines, spread } from "./layout.ts";
import type { Hand } from "./Carried.tsx";
import { RAMP, RailsDrawing } from "./RailsDrawing.tsx";
import { swapEdit } from "./swaps.ts";
import { useCarry, type CarryEnd, type CarryNode } from "./useCarry.ts";
import { editOf, useGlimpsed } from "./useGlimpsed.ts";
import { yarnDots } from "./yarnDots.ts";

// The list with all its keyboard manners is a third of the page's script: it comes when a hand or the keys come near the ladder.
const loadPicker = () => import("./YarnPicker.tsx");
const YarnPicker = lazy(() => loadPicker().then((module) => ({ default: module.YarnPicker })));
const loadCarried = () => import("./Carried.tsx");
const Carried = lazy(() => loadCarried().then((module) => ({ default: module.Carried })));

// A bar is thin: the ladder stands without them until they are here.
const LadderRanges = lazy(() => import("./LadderRanges.tsx").then((module) => ({ default: module.LadderRanges })));

/** CSS pixels: between neighbours on a rail, and from the edge to where the links begin. */
const NODE_GAP = 31;
const LEFT = 84;
/** CSS pixels while a yarn is in the hand: where words begin, and what links, a swatch and the strip need beside them. */
const WORDS_FROM = 72;
const BESIDE_WORDS = 92;
/** No line of words is longer. */
const WORDS_MOST = 176;

interface Choosing {
  readonly line: LadderRung;
  readonly lines: readonly LadderRung[];
  readonly was: Lab;
}

const patternLab = ({ pattern }: Project, colour: string): Lab =>
  labOfShade(pattern.colours.find(({ id }) => id === colour)!.shade);

interface RailsProps {
  /** As the chosen eye sees it. */
  readonly project: Project;
  readonly lines: readonly LadderRung[];
}

export function Rails({ project, lines: present }: RailsProps): ReactNode {
  const { commit, colourway, say, glimpse, check, project: own } = useBench();
  const calm = useCalm();
  const frame = useRef<HTMLDivElement>(null);
  const [size, setSize] = useState({ width: 340, height: 560 });
  // The list is of the ladder as it was when she opened it, though the rails follow her eye.
  const [choosing, setChoosing] = useState<Choosing | null>(null);
  const [taken, setTaken] = useState<Hand | null>(null);
  const buttons = useRef(new Map<string, HTMLButtonElement>());
  const taker = useRef<HTMLElement | null>(null);
  const still = useRef({ lines: present, down: false });
  useLayoutEffect(() => {
    const element = frame.current!;
    // A part that is out of sight has no size; on paper it is drawn with the last one that it had.
    const measure = () =>
      element.clientWidth > 0 &&
      !still.current.down &&
      setSize({ width: element.clientWidth, height: element.clientHeight });
    const observer = new ResizeObserver(measure);
    observer.observe(element);
    measure();
    return () => observer.disconnect();
  }, []);
  useEffect(() => setTaken(null), [own, colourway?.id]);

  const expectHand = () => void Promise.all([loadPicker(), loadCarried()]).catch(() => undefined);

  const nodes = useRef<readonly CarryNode[]>([]);
  const { carry, begin } = useCarry(frame, nodes, (from, to) => lay(from, to));
  const hand: Hand | null =
    carry?.from.side === "yarn" ? { yarn: carry.from.id, at: carry.to, stays: false } : carry ? null : taken;
  const busy = carry !== null || taken !== null;
  // What is tried on the fabric must not move the places under the hand that tries it.
  still.current = { lines: busy ? still.current.lines : present, down: carry !== null };
  const { lines } = still.current;
  const yarns = useMemo(() => yarnDots(project), [project]);
  const used = useMemo(() => new Set(lines.flatMap(({ yarn }) => (yarn ? [yarn] : []))), [lines]);
  const assigned = yarns.filter(({ id }) => used.has(id));
  const others = yarns.filter(({ id }) => !used.has(id));
  const pairs = crossedPairs(lines);
  const nameOf = (yarn: string) => yarns.find(({ id }) => id === yarn)?.name ?? yarn;

  const least = Math.max(lines.length, assigned.length) * NODE_GAP + 24;
  const height = Math.max(size.height, least);
  const span = lightnessSpan([...lines.map(({ was }) => was.L), ...yarns.map(({ L }) => L)]);
  const y = (L: number) => 14 + ((span.top - L) / (span.top - span.bottom)) * (height - 28);
  const leftY = spread(
    lines.map(({ was }) => y(was.L)),
    NODE_GAP,
    16,
    height - 16,
  );
  const rightY = spread(
    assigned.map(({ L }) => y(L)),
    NODE_GAP,
    16,
    height - 16,
  );
  const strip = size.width - 16;

  const assign = (line: LadderRung, yarn: string) => {
    if (!colourway) return;
    const { colour } = line;
    if (line.yarn === yarn) return say(`${colour} has that yarn already.`);
    commit([{ kind: "assignYarn", colourway: colourway.id, colour, yarn }], `${nameOf(yarn)} for ${colour}`);
  };
  const swap = (one: string, other: string) => {
    if (!colourway || one === other) return;
    const name = used.has(one)
      ? `${nameOf(one)} and ${nameOf(other)} swapped`
      : `${nameOf(one)} in place of ${nameOf(other)}`;
    commit([swapEdit(colourway, one, other)], name);
  };
  const lay = (from: CarryEnd, to: CarryEnd) => {
    if (from.side === "yarn" && to.side === "yarn") return swap(from.id, to.id);
    const [colour, yarn] = from.side === "colour" ? [from.id, to.id] : [to.id, from.id];
    const line = lines.find((one) => one.colour === colour);
    if (line) assign(line, yarn);
  };

  const wordsLong = Math.min(WORDS_MOST, size.width - WORDS_FROM - BESIDE_WORDS);
  const [left, right] = hand ? [WORDS_FROM + wordsLong + 4, strip - 34] : [LEFT, Math.round(size.width * 0.48)];
  nodes.current = [
    ...lines.map(({ colour }, i) => ({
      side: "colour" as const,
      id: colour,
      x: LEFT - 24,
      y: leftY[i]!,
      ...(hand && { till: left }),
    })),
    ...assigned.map(({ id }, i) => ({ side: "yarn" as const, id, x: right + 12, y: rightY[i]!, swaps: true })),
    ...others.map(({ id, L }) => ({ side: "yarn" as const, id, x: strip + 8, y: y(L) })),
  ];
  const carriedYarn = hand?.yarn ?? (carry?.to?.side === "yarn" ? carry.to.id : null);
  const carriedName = carriedYarn === null ? null : nameOf(carriedYarn);
  const held = carry?.from ?? (taken && { side: "yarn" as const, id: taken.yarn });
  useGlimpsed(held && editOf(colourway, held, carry ? carry.to : (taken?.at ?? null)), busy);

  const take = (yarn: string, at: CarryEnd | null) => {
    taker.current = document.activeElement as HTMLElement | null;
    setTaken({ yarn, at, stays: true });
  };
  const letGo = (said: string | null) => {
    setTaken(null);
    if (said) say(said);
    const back = taker.current;
    requestAnimationFrame(() => {
      const seen = back?.isConnected && back !== document.body;
      (seen ? back : document.querySelector<HTMLElement>(".take-yarn"))?.focus();
    });
  };
  const layTaken = (to: CarryEnd | null) => {
    if (!taken || !to) return;
    letGo(null);
    lay({ side: "yarn", id: taken.yarn }, to);
  };

  return (
    <>
      <div className="rail-heads" aria-hidden="true" data-carrying={hand !== null}>
        <span style={{ width: Math.round(size.width * 0.48) }}>the pattern</span>
        <span>your yarns</span>
        {others.length > 0 && <span className="rail-others">others</span>}
      </div>
      <div
        className="rails"
        data-carrying={hand !== null}
        ref={frame}
        style={
          {
            minHeight: carry ? height : Math.max(300, least),
            "--width": size.width,
            "--height": height,
          } as CSSProperties
        }
        onPointerEnter={expectHand}
        onFocus={expectHand}
      >
        <RailsDrawing
          lines={lines}
          assigned={assigned}
          others={others}
          leftY={leftY}
          rightY={rightY}
          y={y}
          span={span}
          size={{ width: size.width, height }}
          left={left}
          right={right}
          strip={strip}
          hand={
            carry && !hand?.at
              ? {
                  from: nodes.current.find(({ side, id }) => side === carry.from.side && id === carry.from.id),
                  x: carry.x,
                  y: carry.y,
                }
              : null
          }
          quiet={hand !== null}
          carriedYarn={carriedYarn}
          onTake={(event, yarn) => begin(event, { side: "yarn", id: yarn })}
        />
        {lines.map((line, i) => (
          <button
            key={line.colour}
            ref={(element) => {
              if (element) buttons.current.set(line.colour, element);
              else buttons.current.delete(line.colour);
            }}
            type="button"
            className="rung"
            data-target={(hand?.at ?? carry?.to)?.id === line.colour && (hand?.at ?? carry?.to)?.side === "colour"}
            style={{ top: leftY[i]! - 14, width: hand ? left - 20 : undefined }}
            {...(taken
              ? {
                  "aria-label": `${carriedName} for ${line.colour}, ${line.name}`,
                  "aria-describedby": `place-${line.colour}`,
                }
              : {
                  "aria-haspopup": "dialog",
                  "aria-expanded": choosing?.line.colour === line.colour,
                  "aria-label": rungWords(line),
                  "aria-describedby": `range-${line.colour}`,
                  title: `${line.name}: choose a yarn`,
                })}
            onPointerDown={(event) => !taken && begin(event, { side: "colour", id: line.colour })}
            onClick={() =>
              taken
                ? layTaken({ side: "colour", id: line.colour })
                : setChoosing({ line, lines, was: patternLab(project, line.colour) })
            }
          >
            <span className="rung-letter">{line.colour}</span>
            <span className="swatch" style={{ background: line.was.hex }} />
          </button>
        ))}
        {assigned.map(({ id, name, hex }, i) => (
          <div
            key={id}
            className="held"
            aria-hidden="true"
            data-target={(hand?.at ?? carry?.to)?.id === id}
            data-taken={hand?.yarn === id}
            style={{ top: rightY[i]! - 14, left: right, width: hand ? 26 : strip - right - 10 }}
            title={name}
            // A press must not take the focus from a hand that holds another yarn.
            onMouseDown={(event) => event.preventDefault()}
            onPointerDown={(event) => begin(event, { side: "yarn", id })}
            onClick={() => {
              if (!taken) take(id, null);
              else if (taken.yarn === id) letGo(`${name} is put back.`);
              else layTaken({ side: "yarn", id });
            }}
          >
            <span className="swatch round" style={{ background: hex }} />
            <span className="held-name">
              {nameLines(name).map((line) => (
                <span key={line}>{line}</span>
              ))}
            </span>
          </div>
        ))}
        {carry && carriedName && hand?.at?.side !== "colour" && (
          <p
            className="carry-name"
            aria-hidden="true"
            style={{ top: Math.max(0, carry.y - 40), left: Math.min(carry.x + 8, size.width - 150) }}
          >
            {carryWords(carry.from, carry.to, carriedName, nameOf)}
          </p>
        )}
      </div>
      {hand ? (
        <Suspense fallback={<p className="crossings">{carriedName} is being tried…</p>}>
          <Carried
            hand={hand}
            rungs={lines}
            yarns={yarns}
            room={{
              width: size.width,
              height,
              left,
              right,
              words: { from: WORDS_FROM, long: wordsLong },
              colourY: new Map(lines.map(({ colour }, i) => [colour, leftY[i]!])),
              yarnY: new Map([
                ...others.map(({ id, L }): [string, number] => [id, y(L)]),
                ...assigned.map(({ id }, i): [string, number] => [id, rightY[i]!]),
              ]),
            }}
            frame={frame}
            onMove={(at) => setTaken({ ...hand, at })}
            onTake={(yarn) => setTaken({ ...hand, yarn })}
            onLay={() => layTaken(hand.at)}
            onPutBack={() => letGo(`${carriedName} is put back.`)}
            onLeft={() => setTaken((now) => (now === hand ? null : now))}
          />
        </Suspense>
      ) : (
        <>
          <p className="crossings">
            {orderSentence({
              pairs,
              flipped: check?.findings.some(({ id }) => id === "valueOrder/flipped") ?? false,
              was: lines.map(({ was }) => was.L),
              now: lines.map(({ L }) => L),
            })}
          </p>
          {calm && (
            <Suspense>
              <LadderRanges
                lines={lines}
                frame={frame.current}
                size={{ width: size.width, height }}
                y={y}
                ramp={RAMP}
                strip={strip}
              />
            </Suspense>
          )}
          {assigned.length > 0 && (
            <button
              type="button"
              className="button take-yarn"
              onFocus={expectHand}
              onPointerEnter={expectHand}
              onClick={() => {
                const first = lines.find(({ yarn }) => yarn !== null)!;
                take(first.yarn!, { side: "colour", id: first.colour });
              }}
            >
              Carry a yarn along
            </button>
          )}
        </>
      )}
      <Suspense>
        {choosing !== null && (
          <YarnPicker
            line={choosing.line}
            lines={choosing.lines}
            yarns={yarns}
            was={choosing.was}
            anchor={buttons.current.get(choosing.line.colour) ?? null}
            onTry={(yarn) => {
              const { colour } = choosing.line;
              glimpse(yarn && colourway ? [{ kind: "assignYarn", colourway: colourway.id, colour, yarn }] : null);
            }}
            onTrySwap={(yarn) => {
              const { yarn: own } = choosing.line;
              glimpse(yarn && own && colourway ? [swapEdit(colourway, own, yarn)] : null);
            }}
            onChoose={(yarn) => assign(choosing.line, yarn)}
            onSwap={(yarn) => choosing.line.yarn && swap(choosing.line.yarn, yarn)}
            onCarry={() => {
              const { yarn, colour } = choosing.line;
              glimpse(null);
              setChoosing(null);
              if (!yarn) return;
              const letter = buttons.current.get(colour) ?? null;
              // The list gives the focus back to its letter first.
              setTimeout(() => {
                letter?.focus();
                take(yarn, { side: "colour", id: colour });
              }, 60);
            }}
            onClose={() => {
              glimpse(null);
              setChoosing(null);
            }}
          />
        )}
      </Suspense>
    </>
  );
}

function carryWords(from: CarryEnd, to: CarryEnd | null, name: string, nameOf: (yarn: string) => string): string {
  if (from.side === "colour") return `${name} for ${from.id}`;
  if (!to) return name;
  return to.side === "colour" ? `${name} for ${to.id}` : `${name} ⇄ ${nameOf(to.id)}`;
}

function rungWords(line: LadderRung): string {
  const was = `${line.colour}, ${line.name}, ${line.was.class} in the pattern, L ${Math.round(line.was.L)}`;
  const now = line.yarn
    ? `Knitted in ${line.yarnName ?? line.yarn}, ${line.class}, L ${Math.round(line.L)}`
    : "No yarn yet";
  const crossed = line.crosses.length > 0 ? ` Has changed places with ${line.crosses.join(", ")}.` : "";
  return `${was}. ${now}.${crossed}`;
}
