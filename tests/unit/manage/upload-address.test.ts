import { unstable_doesMiddlewareMatch as passes } from "next/experimental/testing/server";
import { describe, expect, it } from "vitest";
import { config } from "@/proxy";

describe("what goes by the proxy, which keeps no more than 10 MB of a body", () => {
  it.each([["/manage/inventory/upload", false], ["/manage/inventory", true], ["/manage/inventory/files/1", true], ["/api/fit", false], ["/", true]])("%s: %s", (url, expected) => {
    expect(passes({ config, nextConfig: {}, url })).toBe(expected);
  });
});
