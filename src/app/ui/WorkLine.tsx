/** What is being done to files, how far it has come, and the way to stop it and to go on. */
import { useEffect, useRef, useState, type ReactNode } from "react";
import "../style/files.css";

interface WorkLineProps {
  /** What is being done, and how much of it, 0 to 1; null while nothing is. */
  readonly work: { readonly words: string; readonly share: number } | null;
  /** Beside it, seen and not read out: it changes with every one of many. */
  readonly count?: string;
  /** Whether its seconds are counted: its steps are few, and she is to see that it goes on. */
  readonly isTimed?: boolean;
  /** She stopped it, and there is more to do. */
  readonly isStopped: boolean;
  readonly onStop: () => void;
  readonly onGoOn: () => void;
}

export function WorkLine({ work, count, isTimed, isStopped, onStop, onGoOn }: WorkLineProps): ReactNode {
  const line = useRef<HTMLDivElement>(null);
  const seconds = useSeconds(isTimed && work ? work.words : null);
  // The button that was pressed goes away; the hand stays where the next one comes.
  const act = (how: () => void) => () => {
    how();
    line.current?.focus();
  };
  return (
    <div ref={line} tabIndex={-1} className="work-line" data-busy={work !== null || isStopped}>
      <p role="status">{work?.words ?? (isStopped ? "Stopped." : "")}</p>
      {work && (
        <>
          <progress max={1} value={work.share} aria-label={work.words} />
          {(count !== undefined || seconds > 1) && <span className="work-count">{count ?? `${seconds} s`}</span>}
          <button type="button" className="button" onClick={act(onStop)}>
            Stop
          </button>
        </>
      )}
      {isStopped && (
        <button type="button" className="button" onClick={act(onGoOn)}>
          Go on
        </button>
      )}
    </div>
  );
}

/** Whole seconds since the words were others; 0 without any. */
function useSeconds(words: string | null): number {
  const [seconds, setSeconds] = useState(0);
  useEffect(() => {
    setSeconds(0);
    if (words === null) return;
    const from = performance.now();
    const timer = setInterval(() => setSeconds(Math.floor((performance.now() - from) / 1000)), 500);
    return () => clearInterval(timer);
  }, [words]);
  return seconds;
}
