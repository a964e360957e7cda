/** Longer than this no page is waited for, ms: it may be kept all the same, and nothing is promised. */
const PATIENCE = 20_000;

/** When the page that is shown was kept, where it comes from the device and not over the network; null where it does not. */
export function keptAt({ head }: Document): Date | null {
  const at = Date.parse(head.querySelector<HTMLMetaElement>('meta[name="kept-at"]')?.content ?? "");
  return Number.isNaN(at) ? null : new Date(at);
}

/** Whether the page is now kept on the device. No browser keeps pages that came over an open connection. */
export async function askToKeep({ navigator, location, performance }: Window, folder: string): Promise<boolean> {
  if (!("serviceWorker" in navigator)) return false;
  try {
    const registration = await navigator.serviceWorker.register("/kept-pages.js", { scope: folder, updateViaCache: "none" });
    const worker = registration.active ?? (await started(registration));
    const parts = performance.getEntriesByType("resource").map(({ name }) => name);
    return await answered(worker, { keep: location.pathname + location.search, parts });
  } catch {
    return false;
  }
}

/** The worker once it may be talked to. */
async function started({ installing, waiting, active }: ServiceWorkerRegistration): Promise<ServiceWorker> {
  const worker = installing ?? waiting ?? active;
  if (!worker) throw new Error("no worker was registered");
  if (worker.state === "activated") return worker;
  return new Promise((ready, fail) => {
    worker.addEventListener("statechange", () => {
      if (worker.state === "activated") ready(worker);
      if (worker.state === "redundant") fail(new Error("the worker was not started"));
    });
  });
}

function answered(worker: ServiceWorker, message: { readonly keep: string; readonly parts: readonly string[] }): Promise<boolean> {
  const { port1, port2 } = new MessageChannel();
  return new Promise((done) => {
    setTimeout(() => done(false), PATIENCE);
    port1.onmessage = ({ data }: MessageEvent<{ kept: boolean }>) => done(data.kept);
    worker.postMessage(message, [port2]);
  });
}
