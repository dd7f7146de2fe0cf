/** A shade typed as a code, as Lab or as LCh. */
import { useState, type ReactNode } from "react";
import { problemSentence } from "../../base/problem.ts";
import { readTypedShade } from "../../intake/typedShade.ts";
import { DEFAULT_UNCERTAINTY } from "../../yarn/yarn.ts";
import type { ShadeWayProps } from "./shadeDraft.ts";
import { Field } from "./YarnFieldset.tsx";

export function TypedShade({ onShade }: ShadeWayProps): ReactNode {
  const [text, setText] = useState("");
  const { value, problems } = readTypedShade(text);
  // While three numbers are being typed the first of them is no mistake yet.
  const [isLeft, setIsLeft] = useState(false);
  return (
    <div
      onBlur={() => setIsLeft(text.trim() !== "")}
      onKeyDown={(event) => {
        // Enter says that this field is done, not the whole form.
        if (event.key !== "Enter") return;
        event.preventDefault();
        setIsLeft(true);
      }}
    >
      <Field
        name="Hex, Lab or LCh"
        value={text}
        placeholder="#8f7a55"
        wrong={isLeft && problems[0] ? problemSentence(problems[0]) : undefined}
        hint="#8f7a55, or L* a* b* such as 52,5 4 23, or lch 52 23 80. D65, 2° observer."
        onType={(next) => {
          setText(next);
          setIsLeft(false);
          const read = readTypedShade(next).value;
          if (read) onShade({ ...read, uncertainty: DEFAULT_UNCERTAINTY, from: "label" });
        }}
      />
      {value && text.trim() !== "" && <p className="yarn-hint">Read.</p>}
    </div>
  );
}
