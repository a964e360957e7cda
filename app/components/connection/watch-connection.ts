/** `lost`: the device has no connection. `silent`: it has, and the server does not answer. `waiting`: a page is on its way. */
export type ConnectionState = "fine" | "lost" | "silent" | "back" | "waiting";

/** A page that comes sooner needs no word, ms. */
const PATIENCE = 600;
/** How long it is told that the connection is back, ms. */
const BACK_SHOWN = 5_000;
/** A server that is only slow is not waited for longer than this: the form goes, ms. */
const PROBE_FOR = 2_000;
/** Asked before a form is sent: small, and no page. */
const PROBE = "/icon.svg";

/** Sent on a form that was held back after all, so that its button can be pressed again. */
export const FORM_HELD = "form-held";

export interface ConnectionWatch {
  /** The page that was waited for is here: some come without the window being loaded anew. */
  readonly arrived: () => void;
  readonly end: () => void;
}

/** Follows the connection of a window from now on. */
export function watchConnection(view: Window, tell: (state: ConnectionState) => void): ConnectionWatch {
  const { document, navigator } = view;
  const ended = new AbortController(), passed = new WeakSet<HTMLFormElement>();
  let timer: ReturnType<typeof setTimeout> | undefined, waiting = false;
  const say = (state: ConnectionState, after = 0) => {
    clearTimeout(timer);
    waiting = state === "waiting";
    if (after === 0) tell(state);
    else timer = setTimeout(() => tell(state), after);
  };
  const on = <E extends Event>(target: EventTarget, name: string, act: (event: E) => void, capture = false) => target.addEventListener(name, act as EventListener, { capture, signal: ended.signal });

  if (!navigator.onLine) say("lost");
  on(view, "offline", () => say("lost"));
  on(view, "online", () => {
    say("back");
    timer = setTimeout(() => tell("fine"), BACK_SHOWN);
  });
  on(view, "pageshow", () => navigator.onLine && say("fine"));
  // Before anything else sees the tap: following the link would put the browser's error in place of the page.
  on<MouseEvent>(view, "click", (event) => {
    if (navigator.onLine || !leavesPage(event)) return;
    event.preventDefault();
    event.stopPropagation();
    say("lost");
  }, true);
  on<MouseEvent>(view, "click", (event) => leavesPage(event) && navigator.onLine && say("waiting", PATIENCE));
  on<SubmitEvent>(view, "submit", (event) => {
    const form = event.target as HTMLFormElement;
    // Forms that script sends itself, and those that change something, look after themselves.
    if (event.defaultPrevented || form.method !== "get") return;
    if (passed.delete(form)) return say("waiting", PATIENCE);
    event.preventDefault();
    const hold = (state: ConnectionState) => {
      say(state);
      form.dispatchEvent(new Event(FORM_HELD));
    };
    if (!navigator.onLine) return hold("lost");
    const send = () => {
      passed.add(form);
      form.requestSubmit(event.submitter);
    };
    void answers(view).then((alive) => (alive ? send() : hold("silent")));
  });
  return {
    arrived: () => { if (waiting) say("fine"); },
    end: () => {
      clearTimeout(timer);
      ended.abort();
    },
  };

  function leavesPage(event: MouseEvent): boolean {
    const link = (event.target as Element | null)?.closest?.("a[href]");
    if (!link || event.button !== 0 || event.metaKey || event.ctrlKey || event.shiftKey || event.altKey) return false;
    const to = new URL(link.getAttribute("href") ?? "", document.baseURI), here = view.location;
    return to.origin === here.origin && (to.pathname !== here.pathname || to.search !== here.search) && link.getAttribute("target") !== "_blank";
  }
}

/** False only where the network itself says so: slow is no answer yet, and may become one. */
async function answers(view: Window): Promise<boolean> {
  try {
    await view.fetch(PROBE, { method: "HEAD", cache: "no-store", signal: AbortSignal.timeout(PROBE_FOR) });
    return true;
  } catch (error) {
    return error instanceof Error && error.name === "TimeoutError";
  }
}
