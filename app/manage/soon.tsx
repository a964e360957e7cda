import { Suspense, type ReactNode } from "react";

interface SoonProps {
  /** Must not be refused: what can go wrong is part of what is shown. */
  readonly work: Promise<ReactNode>;
  /** What stands there in the meantime; for those without script too, to whom it stays. */
  readonly waiting: ReactNode;
}

/** Longer than this a page is not held up for one of its parts. Milliseconds. */
const PATIENCE = 500;

/**
 * A part of a page that is usually ready at once. It is waited for a moment and then stands in the page as it is made,
 * which also serves those without script; if it takes longer, the page goes out without and the part follows.
 */
export async function Soon({ work, waiting }: SoonProps) {
  const early = await Promise.race([work.then((node) => ({ node })), new Promise<null>((resolve) => { setTimeout(resolve, PATIENCE, null); })]);
  if (early) return early.node;
  return <Suspense fallback={waiting}><Late work={work} /></Suspense>;
}

async function Late({ work }: { readonly work: Promise<ReactNode> }) {
  return await work;
}
