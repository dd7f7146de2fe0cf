/** The page of her yarns: everything on her shelf, and the ways in which more comes onto it. */
import type { ReactNode } from "react";
import { useShelf } from "./useShelf.ts";

export function StashPage(): ReactNode {
  const { shelf } = useShelf();
  return (
    <main className="stash">
      <h2>Your yarns</h2>
      <p>{shelf.yarns.length}</p>
    </main>
  );
}
