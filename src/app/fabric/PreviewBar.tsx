/** A change that is tried: before on the left, after on the right, and the two ways on from here. */
import { useEffect, useRef, type ReactNode } from "react";
import { useBench, type Preview } from "../shell/bench.ts";

export function PreviewBar({ preview }: { readonly preview: Preview }): ReactNode {
  const { keepPreview, dropPreview, check, previewCheck } = useBench();
  const keep = useRef<HTMLButtonElement>(null);
  useEffect(() => keep.current?.focus(), [preview]);
  const before = check?.findings.length;
  const after = previewCheck?.findings.length;
  return (
    <div className="preview" role="group" aria-label="A change that is tried">
      <div className="preview-words">
        <p className="preview-title">{preview.title}</p>
        {preview.sentence && <p>{preview.sentence}</p>}
        {before !== undefined && after !== undefined && (
          <p className="preview-count">
            Findings: {before} before, {after} after.
          </p>
        )}
      </div>
      <div className="preview-choice">
        <button ref={keep} type="button" className="button strong" onClick={keepPreview}>
          Keep
        </button>
        <button type="button" className="button" onClick={dropPreview}>
          Drop
        </button>
      </div>
    </div>
  );
}
