/** The top of each way in which yarns come onto the shelf: what it is, and the way back. */
import type { ReactNode, RefObject } from "react";

interface DoorHeadProps {
  readonly id: string;
  readonly title: string;
  /** Where the hand is set down when the part opens. */
  readonly heading: RefObject<HTMLHeadingElement | null>;
  readonly onClose: () => void;
}

export function DoorHead({ id, title, heading, onClose }: DoorHeadProps): ReactNode {
  return (
    <div className="door-head">
      <h2 id={id} ref={heading} tabIndex={-1}>
        {title}
      </h2>
      <button type="button" className="button" onClick={onClose}>
        Back to your yarns
      </button>
    </div>
  );
}
