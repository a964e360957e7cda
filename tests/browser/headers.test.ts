import { expect, test } from "./fixtures";

test.describe("what every answer carries", () => {
  test("a page allows only scripts that carry the nonce of this one answer", async ({ request }) => {
    const [first, second] = [await request.get("/"), await request.get("/")];
    const nonces = [first, second].map((answer) => /'nonce-([^']+)'/.exec(answer.headers()["content-security-policy"] ?? "")?.[1]);
    expect(nonces[0]).toBeTruthy();
    expect(nonces[0]).not.toBe(nonces[1]);
    const scripts = [...(await first.text()).matchAll(/<script\b[^>]*>/g)].map(([tag]) => tag);
    expect(scripts.length).toBeGreaterThan(0);
    for (const tag of scripts) expect(tag).toContain(`nonce="${nonces[0]}"`);
  });

  test("nothing says what it is built with, and nobody may frame it", async ({ request }) => {
    const headers = (await request.get("/")).headers();
    expect(headers["x-powered-by"]).toBeUndefined();
    expect(headers["x-frame-options"]).toBe("DENY");
    expect(headers["x-content-type-options"]).toBe("nosniff");
    expect(headers["content-security-policy"]).toContain("frame-ancestors 'none'");
  });

  test("a browser that asks for the icon by its old address gets one, whatever page it is on", async ({ request }) => {
    const icon = await request.get("/favicon.ico");
    expect(icon.status()).toBe(200);
    expect(icon.headers()["content-type"]).toContain("icon");
  });

  test("a script that was smuggled into the page does not run", async ({ page, watch }) => {
    watch.allow(/Content Security Policy/);
    await page.goto("/");
    const ran = await page.evaluate(() => {
      const holder = document.createElement("div");
      holder.innerHTML = `<img src="data:," onerror="window.smuggled = true">`;
      document.body.append(holder);
      return new Promise((resolve) => setTimeout(() => resolve("smuggled" in window), 300));
    });
    expect(ran).toBe(false);
  });
});
