/** A shade found with the ball in the hand: two patches on the screen, and always the same question. */
import { useEffect, useRef, useState, type ReactNode } from "react";
import {
  answered,
  beginComparison,
  QUESTIONS,
  START_DOUBT,
  type Comparison,
  type Nearer,
} from "../../colour/matching.ts";
import { ontoScreen } from "../../colour/gamut.ts";
import { hexFromLab, type Lab } from "../../colour/lab.ts";
import { plainName } from "../../colour/names.ts";
import { startShades } from "../../colour/startShades.ts";
import { capital } from "../shell/words.ts";
import type { ShadeWayProps } from "./shadeDraft.ts";

export function CompareShade({ shade, onShade }: ShadeWayProps): ReactNode {
  const [start, setStart] = useState<{ readonly lab: Lab; readonly doubt: number } | null>(null);
  const opener = useRef<HTMLElement | null>(null);
  const open = (lab: Lab, doubt: number): void => {
    opener.current = document.activeElement as HTMLElement | null;
    setStart({ lab, doubt });
  };
  return (
    <div className="compare">
      <ul className="compare-how">
        <li>By daylight, near a window, not in the sun; lamps out.</li>
        <li>The screen as bright as you always have it; night colours and any other tint switched off.</li>
        <li>The ball beside the screen, not on it, at the height of the patches.</li>
        <li>Look from the ball to a patch and back, a few seconds each, and at the wool, not its shadows.</li>
      </ul>
      <p>
        Two patches are shown, {QUESTIONS.least} to {QUESTIONS.most} times over; each time say which is nearer to your
        ball. It ends with a shade and how far it may be off, about 6 to 8 ΔE00, as screens are not measured.
      </p>
      <p id="compare-start-title">Begin at the patch that is nearest:</p>
      <div className="compare-starts" role="group" aria-labelledby="compare-start-title">
        {startShades().map((lab) => (
          <button
            key={hexFromLab(lab)}
            type="button"
            className="compare-start"
            style={{ background: hexFromLab(lab) }}
            aria-label={plainName(lab)}
            title={capital(plainName(lab))}
            onClick={() => open(lab, START_DOUBT)}
          />
        ))}
      </div>
      {shade && (
        <button
          type="button"
          className="button"
          onClick={() => open(ontoScreen(shade.lab), Math.max(START_DOUBT, shade.uncertainty))}
        >
          Begin at the shade above
        </button>
      )}
      {start && (
        <CompareDialog
          start={start.lab}
          doubt={start.doubt}
          onEnd={(found) => {
            setStart(null);
            if (found)
              onShade({ lab: found.lab, uncertainty: Math.round(10 * found.uncertainty) / 10, from: "screen" });
            requestAnimationFrame(() => opener.current?.focus());
          }}
        />
      )}
    </div>
  );
}

interface CompareDialogProps {
  readonly start: Lab;
  readonly doubt: number;
  /** null: she left off. */
  readonly onEnd: (found: Comparison | null) => void;
}

const KEYS: Readonly<Record<string, Nearer>> = {
  ArrowLeft: "left",
  ArrowRight: "right",
  ArrowDown: "neither",
};

/** All of the screen, so that nothing stands beside the patches but grey. */
function CompareDialog({ start, doubt, onEnd }: CompareDialogProps): ReactNode {
  const dialog = useRef<HTMLDialogElement>(null);
  const question = useRef<HTMLHeadingElement>(null);
  // Every stand is kept, so that each answer can be taken back.
  const [stands, setStands] = useState<readonly Comparison[]>(() => [beginComparison(start, doubt)]);
  const [said, setSaid] = useState("");
  const now = stands.at(-1)!;
  const { pair } = now;
  useEffect(() => {
    if (!dialog.current?.open) dialog.current?.showModal();
  }, []);
  useEffect(() => question.current?.focus(), [pair === null]);

  const answer = (nearer: Nearer): void => {
    if (!pair) return;
    const next = answered(now, nearer);
    setStands([...stands, next]);
    setSaid(next.pair ? `${SAID[nearer]}. Choice ${next.answers.length + 1}.` : "That was the last.");
  };
  const back = (): void => {
    if (stands.length === 1) return;
    setStands(stands.slice(0, -1));
    setSaid(`Back at choice ${stands.length - 1}.`);
  };

  return (
    <dialog
      ref={dialog}
      className="compare-dialog"
      aria-labelledby="compare-title"
      onClose={() => onEnd(null)}
      onKeyDown={(event) => {
        const nearer = KEYS[event.key];
        if (nearer && pair) answer(nearer);
        else if (event.key === "Backspace") back();
        else return;
        event.preventDefault();
      }}
    >
      <div className="compare-top">
        <h2 id="compare-title" ref={question} tabIndex={-1}>
          {pair ? "Which is nearer to your ball?" : "Your ball’s shade"}
        </h2>
        <p className="unseen" role="status">
          {said}
        </p>
        <button type="button" className="button" onClick={() => onEnd(null)}>
          Leave off
        </button>
      </div>
      {pair ? (
        <>
          <div className="compare-patches">
            <span className="compare-patch" style={{ background: hexFromLab(pair.left) }} />
            <span className="compare-patch" style={{ background: hexFromLab(pair.right) }} />
          </div>
          <div className="compare-answers">
            <button type="button" className="button" onClick={() => answer("left")}>
              <kbd aria-hidden="true">←</kbd> Left
            </button>
            <button type="button" className="button" onClick={() => answer("neither")}>
              <kbd aria-hidden="true">↓</kbd> No difference
            </button>
            <button type="button" className="button" onClick={() => answer("right")}>
              Right <kbd aria-hidden="true">→</kbd>
            </button>
          </div>
        </>
      ) : (
        <Found found={now} onTake={() => onEnd(now)} />
      )}
      <div className="compare-foot">
        <button type="button" className="button" disabled={stands.length === 1} onClick={back}>
          One choice back <kbd aria-hidden="true">⌫</kbd>
        </button>
        {pair && (
          <p>
            Choice {now.answers.length + 1} of at most {QUESTIONS.most}
          </p>
        )}
      </div>
    </dialog>
  );
}

const SAID: Readonly<Record<Nearer, string>> = { left: "Left", right: "Right", neither: "No difference" };

function Found({ found, onTake }: { readonly found: Comparison; readonly onTake: () => void }): ReactNode {
  const { lab, uncertainty, ownSpread, answers, isBeyondScreen } = found;
  return (
    <div className="compare-found">
      <span className="compare-patch" style={{ background: hexFromLab(lab) }} />
      <div>
        <p className="shade-name">{capital(plainName(lab))}</p>
        <p>
          L* {Math.round(lab[0])}, give or take {uncertainty.toFixed(1)} ΔE00: {ownSpread.toFixed(1)} by your{" "}
          {answers.length} answers, the rest because nobody has measured your screen.
        </p>
        {isBeyondScreen && <p>It is stronger than a screen can show, so it was compared with what comes nearest.</p>}
        <p className="caution">A model of a looking eye and of an ordinary screen, not tested on knitters.</p>
        <button type="button" className="button strong" onClick={onTake}>
          Take this shade
        </button>
      </div>
    </div>
  );
}
