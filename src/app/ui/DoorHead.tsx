/** The top of each way in which something comes in: what it is, and the way back. */
import type { ReactNode, RefObject } from "react";
import "../style/door.css";

interface DoorHeadProps {
  readonly id: string;
  readonly title: string;
  /** The words of the way back: "Back to your yarns". */
  readonly back: string;
  /** Where the hand is set down when the part opens. */
  readonly heading: RefObject<HTMLHeadingElement | null>;
  readonly onClose: () => void;
}

export function DoorHead({ id, title, back, heading, onClose }: DoorHeadProps): ReactNode {
  return (
    <div className="door-head">
      <h2 id={id} ref={heading} tabIndex={-1}>
        {title}
      </h2>
      <button type="button" className="button" onClick={onClose}>
        {back}
      </button>
    </div>
  );
}
