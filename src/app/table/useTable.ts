/** The table in hand: its file or text, what she says of it, and what the worker makes of both; read again at each change. */
import { useCallback, useEffect, useMemo, useState } from "react";
import { problemSentence, type Problem } from "../../base/problem.ts";
import { brokenSentence } from "../worker/answers.ts";
import type { StashAnswer, StashQuestion } from "../worker/api.ts";
import { newest, quickJobs } from "../worker/client.ts";
import type { Yarn } from "../../yarn/yarn.ts";

export interface TableSource {
  readonly name: string;
  readonly content: Uint8Array | string;
}

/** What she corrects; all else is found out. */
export type Corrections = Omit<StashQuestion, "have">;

export interface TableInHand {
  readonly source: TableSource | null;
  readonly corrections: Corrections;
  readonly answer: StashAnswer | null;
  readonly problems: readonly Problem[];
  readonly isBusy: boolean;
  /** Why there is no table. */
  readonly refused: readonly string[];
  readonly openFile: (file: File) => void;
  readonly openText: (text: string) => void;
  readonly correct: (part: Corrections) => void;
  readonly close: () => void;
}

interface Read {
  readonly answer: StashAnswer | null;
  readonly problems: readonly Problem[];
  readonly refused: readonly string[];
}

export function useTable(have: readonly Yarn[]): TableInHand {
  const [source, setSource] = useState<TableSource | null>(null);
  const [corrections, setCorrections] = useState<Corrections>({});
  const [read, setRead] = useState<Read>(NOTHING);
  const [isBusy, setBusy] = useState(false);
  const ask = useMemo(
    () => newest((content: Uint8Array | string, question: StashQuestion) => quickJobs().readTable(content, question)),
    [],
  );
  useEffect(() => {
    if (!source) return;
    let live = true;
    setBusy(true);
    ask(source.content, { ...corrections, have }).then(
      (outcome) => {
        if (!live || !outcome) return;
        const { value, problems } = outcome;
        setRead({ answer: value, problems, refused: value ? [] : problems.map(problemSentence) });
        setBusy(false);
      },
      (reason: unknown) => {
        if (!live) return;
        setRead({ ...NOTHING, refused: [brokenSentence(reason)] });
        setBusy(false);
      },
    );
    return () => {
      live = false;
    };
  }, [source, corrections, have, ask]);

  const begin = useCallback((next: TableSource | null, refused: readonly string[] = []) => {
    setSource(next);
    setCorrections({});
    setRead({ ...NOTHING, refused });
  }, []);
  const openFile = useCallback(
    (file: File) => {
      if (file.size > LARGEST) return begin(null, [`${file.name} is larger than any table of yarns: more than 20 MB.`]);
      file.arrayBuffer().then(
        (buffer) => begin({ name: file.name, content: new Uint8Array(buffer) }),
        () => begin(null, [`The browser could not read ${file.name}; it may have been moved or changed meanwhile.`]),
      );
    },
    [begin],
  );
  const openText = useCallback((text: string) => begin({ name: "What was pasted", content: text }), [begin]);
  const correct = useCallback((part: Corrections) => setCorrections((now) => ({ ...now, ...part })), []);
  const close = useCallback(() => begin(null), [begin]);
  return { source, corrections, ...read, isBusy, openFile, openText, correct, close };
}

const NOTHING: Read = { answer: null, problems: [], refused: [] };
/** Bytes: some hundred thousand yarns. Our choice. */
const LARGEST = 20_000_000;
