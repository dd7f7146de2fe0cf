/** How large an element is seen, and how fine the screen is, whenever either changes. */
import { useEffect, useState, type RefObject } from "react";

interface ViewOf {
  /** CSS pixels within its edges; null until it is known. */
  readonly size: { readonly width: number; readonly height: number } | null;
  /** Device pixels a CSS pixel. */
  readonly density: number;
}

export function useViewSize(element: RefObject<HTMLElement | null>): ViewOf {
  const [view, setView] = useState<ViewOf>(() => ({ size: null, density: window.devicePixelRatio || 1 }));
  useEffect(() => {
    const observed = element.current!;
    const observer = new ResizeObserver(() =>
      setView({
        size: { width: observed.clientWidth, height: observed.clientHeight },
        density: window.devicePixelRatio || 1,
      }),
    );
    observer.observe(observed);
    return () => observer.disconnect();
  }, [element]);
  return view;
}
