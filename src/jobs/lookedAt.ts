/** How a colourway is looked at: what every job asks that judges what an eye sees. */
import type { JudgeMemory } from "../audit/judge.ts";
import type { Deficiency } from "../vision/deficiency.ts";
import type { Texture } from "../vision/masking.ts";

export interface LookedAt {
  readonly colourway?: string | undefined;
  /** Metres. */
  readonly distance?: number | undefined;
  /** Lux. */
  readonly light?: number | undefined;
  /** The cloth's own texture; as the project has measured it where missing. */
  readonly texture?: Texture | undefined;
  /** As an eye sees it that lacks, or half lacks, one kind of cone; an ordinary eye where missing. */
  readonly deficiency?: Deficiency | undefined;
  /** 0 to 1, how far the deficiency goes; 1 where missing. */
  readonly severity?: number | undefined;
  /** What one job remembers for the next; a fresh memory where missing. */
  readonly memory?: JudgeMemory | undefined;
}
