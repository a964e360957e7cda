import { describe, expect, it } from "vitest";
import { nextPath } from "@/app/sign-in/next-path";
import { noteClient } from "@/scripts/stages/note-client.mjs";

describe("where to go after signing in", () => {
  it("is a path of this application, whatever the address asks for", () => {
    for (const path of ["/desk", "/desk?call=tt+31&loop=B", "/manage/sites/c07?units=metric", "/"]) expect(nextPath(path)).toBe(path);
    for (const other of [undefined, "", "desk", "https://example.test/", "//example.test", "/\\example.test", "\\\\example.test", "/\t/example.test", "/.//example.test", "javascript:alert(1)", "/sign-in", "/sign-in?next=/desk"]) expect(nextPath(other), String(other)).toBe("/desk");
  });
});

describe("where a request came from", () => {
  const noted = (headers: Record<string, string>, proxies: number) => {
    const request = { headers: { ...headers }, socket: { remoteAddress: "192.0.2.9" } };
    noteClient(request, proxies);
    const { "x-padwright-client": client, "x-padwright-proto": proto } = request.headers as Record<string, string>;
    return [client, proto];
  };

  it("is what the connection says, whatever the request claims", () => {
    expect(noted({}, 0)).toEqual(["192.0.2.9", "http"]);
    expect(noted({ "x-forwarded-for": "203.0.113.1", "x-forwarded-proto": "https", "x-padwright-client": "203.0.113.1", "x-padwright-proto": "https" }, 0)).toEqual(["192.0.2.9", "http"]);
  });

  it("is what the house's own proxies say, counted from the near end", () => {
    const headers = { "x-forwarded-for": "198.51.100.7, 203.0.113.1, 10.0.0.2", "x-forwarded-proto": "http, https" };
    expect(noted(headers, 1)).toEqual(["10.0.0.2", "https"]);
    expect(noted(headers, 2)).toEqual(["203.0.113.1", "https"]);
    expect(noted({}, 1)).toEqual(["192.0.2.9", "http"]);
  });
});
