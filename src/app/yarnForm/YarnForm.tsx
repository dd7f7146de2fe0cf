/** A yarn entered or changed by hand: its shade by whichever way she has, and all else that is known of it. */
import { useEffect, useMemo, useRef, useState, type ReactNode } from "react";
import { onShelf } from "../../yarn/shelf.ts";
import { DoorHead } from "../ui/DoorHead.tsx";
import type { YarnFields } from "../../document/plainEdit.ts";
import { useBench } from "../shell/bench.ts";
import { freeId } from "../shell/words.ts";
import { useShelf } from "../stash/useShelf.ts";
import "../style/yarnForm.css";
import { shadeDraftOf, shadeOf, type ShadeDraft } from "./shadeDraft.ts";
import { ShadeWays } from "./ShadeWays.tsx";
import { draftOf, readDraft, yarnOf } from "./yarnDraft.ts";
import { YarnFieldset } from "./YarnFieldset.tsx";

interface YarnFormProps {
  readonly onClose: () => void;
  /** The id of the yarn on her shelf that is changed; without it a new one is made. */
  readonly yarn?: string;
}

export function YarnForm({ onClose, yarn: id }: YarnFormProps): ReactNode {
  const { project } = useBench();
  const { shelf, commitShelf } = useShelf();
  const before = useRef(shelf.yarns.find((yarn) => yarn.id === id) ?? null).current;
  const heading = useRef<HTMLHeadingElement>(null);
  const form = useRef<HTMLFormElement>(null);
  const [draft, setDraft] = useState(() => draftOf(before));
  const [shade, setShade] = useState<ShadeDraft | null>(() => shadeDraftOf(before?.shade));
  const [hasNewShade, setHasNewShade] = useState(false);
  const [onBench, setOnBench] = useState(true);
  const [isJudged, setIsJudged] = useState(false);
  useEffect(() => heading.current?.focus(), []);

  const copies = useMemo(
    () => (before ? (project?.yarns ?? []).filter((yarn) => onShelf(shelf.yarns, yarn)?.id === before.id) : []),
    [before, project, shelf],
  );
  const { fields, wrong } = readDraft(draft);
  const hasFlecks = (before?.flecks?.length ?? 0) > 0;
  const lacksShade = shade === null && !hasFlecks;
  const isWrong = Object.keys(wrong).length > 0 || lacksShade;

  const keep = (): void => {
    setIsJudged(true);
    if (isWrong) {
      requestAnimationFrame(() =>
        form.current?.querySelector<HTMLElement>('[aria-invalid="true"], [data-wrong]')?.focus(),
      );
      return;
    }
    const stated = shade && (hasNewShade || !before) ? { shade: shadeOf(shade) } : {};
    if (!before) {
      const yarn = yarnOf(freeId("y", shelf.yarns), fields, shadeOf(shade!));
      if (commitShelf([{ kind: "addYarns", yarns: [yarn] }], `${fields.name} put on the shelf`)) onClose();
      return;
    }
    const changed: YarnFields = { ...fields, ...stated };
    const edits = onBench
      ? copies.map((copy) => ({ kind: "changeYarn" as const, yarn: copy.id, fields: changed }))
      : [];
    const name = `${fields.name} changed${edits.length > 0 ? ", on the bench too" : ""}`;
    if (commitShelf([{ kind: "changeYarn", yarn: before.id, fields: changed }], name, edits)) onClose();
  };

  return (
    <section className="yarn-form" aria-labelledby="yarn-form-title">
      <DoorHead
        id="yarn-form-title"
        title={before ? before.name : "A yarn by hand"}
        back="Back to your yarns"
        heading={heading}
        onClose={onClose}
      />
      <form
        ref={form}
        className="yarn-form-parts"
        noValidate
        onSubmit={(event) => {
          event.preventDefault();
          keep();
        }}
      >
        <ShadeWays
          shade={shade}
          isMissing={isJudged && lacksShade}
          onShade={(next) => {
            setShade(next);
            setHasNewShade(true);
          }}
        />
        <YarnFieldset draft={draft} wrong={isJudged ? wrong : {}} onChange={setDraft} />
        <div className="yarn-form-end">
          {copies.length > 0 && (
            <div className="choice">
              <label>
                <input type="checkbox" checked={onBench} onChange={(event) => setOnBench(event.target.checked)} />
                <span>Change it on the bench too</span>
              </label>
            </div>
          )}
          {hasFlecks && hasNewShade && (
            <p className="caution">Its flecks stay as they were; the shade is what it shows from afar.</p>
          )}
          <button className="button strong">{before ? "Keep the changes" : "Put it on the shelf"}</button>
          <button type="button" className="button" onClick={onClose}>
            Leave it
          </button>
        </div>
      </form>
    </section>
  );
}
