/** What is being read, seen while nothing is found yet: the picture itself where the browser can show it. */
import { useEffect, useState, type ReactNode } from "react";

export function SheetWaiting({ file, name }: { readonly file: File; readonly name: string }): ReactNode {
  const [address, setAddress] = useState<string | null>(null);
  useEffect(() => {
    // A drawing is painted by ourselves only: what a stranger's may do to the browser is not tried.
    if (!file.type.startsWith("image/") || file.type === "image/svg+xml") return;
    const made = URL.createObjectURL(file);
    setAddress(made);
    return () => {
      setAddress(null);
      URL.revokeObjectURL(made);
    };
  }, [file]);
  return (
    <div className="sheet-waiting">
      {address ? <img src={address} alt={name} decoding="async" onError={() => setAddress(null)} /> : name}
    </div>
  );
}
