import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { watchConnection, type ConnectionState, type ConnectionWatch } from "@/app/components/connection/watch-connection";

/** As much of a window as is watched: events, whether there is a connection, and a server to ask. */
class View extends EventTarget {
  readonly navigator = { onLine: true };
  readonly document = { baseURI: "http://park.test/sites?kind=van" };
  readonly location = new URL("http://park.test/sites?kind=van");
  alive = true;
  readonly fetch = vi.fn(() => (this.alive ? Promise.resolve(new Response()) : Promise.reject(new TypeError("no answer"))));

  go(online: boolean) {
    this.navigator.onLine = online;
    this.dispatchEvent(new Event(online ? "online" : "offline"));
  }
}

class Form extends EventTarget {
  readonly method: string = "get";
  readonly sent: unknown[] = [];
  constructor(readonly view: View) { super(); }
  requestSubmit() { this.sent.push(this.submit().defaultPrevented ? "held" : "sent"); }
  /** Sends as a browser does: the event bubbles up to the window, which may hold it back. */
  submit(): Event {
    const event = new Event("submit", { cancelable: true });
    Object.defineProperty(event, "target", { value: this });
    this.view.dispatchEvent(event);
    return event;
  }
}

describe("the notice of the connection", () => {
  let view: View, told: ConnectionState[], watch: ConnectionWatch;
  beforeEach(() => {
    vi.useFakeTimers();
    view = new View();
    told = [];
    watch = watchConnection(view as unknown as Window, (state) => told.push(state));
  });
  afterEach(() => {
    watch.end();
    vi.useRealTimers();
  });

  it("says when it is lost and when it is back, the latter for a while", () => {
    view.go(false);
    view.go(true);
    expect(told).toEqual(["lost", "back"]);
    vi.advanceTimersByTime(5_000);
    expect(told).toEqual(["lost", "back", "fine"]);
  });

  it("says nothing more once it is ended", () => {
    watch.end();
    view.go(false);
    expect(told).toEqual([]);
  });

  it("holds a form back while there is no connection, and does not ask the server", () => {
    view.go(false);
    const form = new Form(view), held = vi.fn();
    form.addEventListener("form-held", held);
    expect(form.submit().defaultPrevented).toBe(true);
    expect([told.at(-1), held.mock.calls.length, view.fetch.mock.calls.length]).toEqual(["lost", 1, 0]);
  });

  it("sends a form once the server has answered, and only then says that it takes long", async () => {
    const form = new Form(view);
    form.submit();
    await vi.advanceTimersByTimeAsync(0);
    expect(form.sent).toEqual(["sent"]);
    expect(told).toEqual([]);
    await vi.advanceTimersByTimeAsync(600);
    expect(told).toEqual(["waiting"]);
  });

  it("says nothing of a page that came in time, or no more of it once it is here", async () => {
    const send = async () => {
      new Form(view).submit();
      await vi.advanceTimersByTimeAsync(0);
    };
    await send();
    watch.arrived();
    await vi.advanceTimersByTimeAsync(2_000);
    expect(told).toEqual(["fine"]);
    await send();
    await vi.advanceTimersByTimeAsync(600);
    watch.arrived();
    expect(told).toEqual(["fine", "waiting", "fine"]);
  });

  it("does not take a page that arrives for a connection that is back", () => {
    view.go(false);
    watch.arrived();
    expect(told).toEqual(["lost"]);
  });

  it("keeps the page where the server does not answer, and lets the form be sent again", async () => {
    view.alive = false;
    const form = new Form(view), held = vi.fn();
    form.addEventListener("form-held", held);
    form.submit();
    await vi.advanceTimersByTimeAsync(0);
    expect([form.sent, told, held.mock.calls.length]).toEqual([[], ["silent"], 1]);
    view.alive = true;
    form.submit();
    await vi.advanceTimersByTimeAsync(0);
    expect(form.sent).toEqual(["sent"]);
  });

  it("sends a form to a server that is only slow", async () => {
    view.fetch.mockImplementationOnce(() => Promise.reject(new DOMException("slow", "TimeoutError")));
    const form = new Form(view);
    form.submit();
    await vi.advanceTimersByTimeAsync(0);
    expect(form.sent).toEqual(["sent"]);
  });

  it("lets be what script has taken care of, and what changes something", () => {
    const form = new Form(view), event = new Event("submit", { cancelable: true });
    Object.defineProperty(event, "target", { value: form });
    event.preventDefault();
    view.dispatchEvent(event);
    const post = Object.assign(new Form(view), { method: "post" });
    expect(post.submit().defaultPrevented).toBe(false);
    expect(view.fetch).not.toHaveBeenCalled();
  });
});
