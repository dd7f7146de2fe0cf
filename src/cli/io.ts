/** The outside world of a command, handed in so that a test can stand in for it. */

export interface Io {
  /** Standard output: the answer and nothing else. */
  readonly out: (text: string) => void;
  /** Standard error: problems and progress. */
  readonly err: (text: string) => void;
  /** Milliseconds, for time limits only. */
  readonly now: () => number;
}

/** The exit codes of sysexits.h (BSD) that a program may rely on. */
export const EXIT = {
  done: 0,
  finding: 1,
  usage: 64,
  badInput: 65,
  cannotRead: 66,
  ourFault: 70,
  cannotWrite: 73,
} as const;

export type ExitCode = (typeof EXIT)[keyof typeof EXIT];

/** Ends a command with a sentence and a code; the only thing that commands throw. */
export class Refusal extends Error {
  readonly code: ExitCode;
  constructor(code: ExitCode, sentence: string) {
    super(sentence);
    this.code = code;
  }
}
