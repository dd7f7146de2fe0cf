/** Things dropped onto a part of the page: whether one hangs over it, and what the part has to answer to. */
import { useState, type DragEvent } from "react";

interface Drop {
  readonly "data-over": boolean;
  readonly onDragOver: (event: DragEvent) => void;
  readonly onDragLeave: (event: DragEvent) => void;
  readonly onDrop: (event: DragEvent) => void;
}

/** @returns what is spread over the element */
export function useDrop(take: (dropped: DataTransfer) => void): Drop {
  const [isOver, setOver] = useState(false);
  return {
    "data-over": isOver,
    onDragOver: (event) => {
      event.preventDefault();
      setOver(true);
    },
    onDragLeave: (event) => !event.currentTarget.contains(event.relatedTarget as Node | null) && setOver(false),
    onDrop: (event) => {
      event.preventDefault();
      setOver(false);
      take(event.dataTransfer);
    },
  };
}
