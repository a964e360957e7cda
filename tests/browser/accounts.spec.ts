import type { Browser, Page } from "@playwright/test";
import { expectAccessible, expectNoSideways } from "./expectations";
import { expect, sessionFile, test } from "./fixtures";
import { inviteLink, join, makePerson, signIn, type Person } from "./join-as";

/** A page that is signed in as the manager all tests share. */
async function managersPage(browser: Browser, baseURL: string): Promise<Page> {
  return (await browser.newContext({ storageState: sessionFile("manager", baseURL), baseURL, reducedMotion: "reduce" })).newPage();
}

/** A new account of the desk, signed in on `page`. */
async function newClerk(browser: Browser, page: Page, baseURL: string, name = "Sam Field"): Promise<Person> {
  const managers = await managersPage(browser, baseURL);
  const link = await inviteLink(managers, "desk");
  await managers.context().close();
  const person = makePerson(name);
  await join(page, link, person);
  return person;
}

const rowOf = (page: Page, { email }: Person) => page.getByRole("list", { name: "Accounts of the park" }).getByRole("listitem").filter({ hasText: email });
const bar = (page: Page) => page.getByRole("region", { name: "For staff" });

// Sessions end here under pages that are open and listen for changes: a browser writes down that they are refused from then on.
test.beforeEach(({ watch }) => watch.allow(/status of 401 .*\/api\/live\)/));

test.describe("signed out", () => {
  for (const path of ["/desk", "/desk/nights", "/desk/new", "/desk/find?q=a", "/desk/check?call=tt+31", "/desk/check/b05?call=tt+31", "/manage", "/manage/sites/c07", "/manage/fits", "/manage/accounts", "/account"]) {
    test(`${path} asks to sign in first`, async ({ request }) => {
      const answer = await request.get(path, { maxRedirects: 0 });
      expect(answer.status()).toBe(307);
      expect(answer.headers()["location"]).toBe(`/sign-in?next=${encodeURIComponent(path)}`);
      expect(await answer.text()).not.toContain("C-07");
    });
  }

  test("what a staff page asks for by itself is refused", async ({ request }) => {
    expect((await request.get("/manage/fits/progress")).status()).toBe(401);
  });

  test("guests' pages, the explanations and the open interface stay open", async ({ request }) => {
    for (const path of ["/", "/learn", "/learn/staff", "/learn/words", "/docs/api", "/api/openapi.json", "/api/parks/quillback-meadow/sites"]) expect((await request.get(path, { maxRedirects: 0 })).status(), path).toBe(200);
  });

  test("a session that somebody made up opens nothing", async ({ request }) => {
    for (const cookie of ["nonsense", "x.y", "%", "a".repeat(4000)]) {
      expect((await request.get("/manage", { maxRedirects: 0, headers: { cookie: `padwright-session=${cookie}` } })).status()).toBe(307);
      expect((await request.get("/manage/fits/progress", { headers: { cookie: `padwright-session=${cookie}` } })).status()).toBe(401);
    }
  });

  test("none of the sign-in library's own addresses is served", async ({ request }) => {
    for (const path of ["/api/auth/ok", "/api/auth/get-session", "/api/auth/sign-up/email"]) expect((await request.get(path)).status()).toBe(404);
    expect((await request.post("/api/auth/sign-in/email", { data: { email: "a@example.test", password: "x" } })).status()).toBe(404);
  });
});

test.describe("signing in and out", () => {
  test("comes back to the page that was asked for, by the keyboard alone, and signing out ends the session itself", async ({ page, context, browser, baseURL }) => {
    const person = await newClerk(browser, page, baseURL!);
    const [old] = (await context.cookies()).filter(({ name }) => name === "padwright-session");
    expect(old).toMatchObject({ httpOnly: true, sameSite: "Lax", path: "/" });
    await bar(page).getByRole("button", { name: "Sign out" }).click();
    await expect(page.getByText("You are signed out.")).toBeVisible();
    // Whoever kept the cookie has nothing of it.
    await context.addCookies([old!]);
    await page.goto("/desk?call=tt+31");
    await expect(page).toHaveURL(/\/sign-in\?next=/);
    await page.getByLabel("E-mail").focus();
    await page.keyboard.type(person.email.toUpperCase());
    await page.keyboard.press("Tab");
    await page.keyboard.type(person.password);
    await page.keyboard.press("Enter");
    await expect(page).toHaveURL(/\/desk\?call=tt\+31$/);
    await expect(bar(page).getByRole("link", { name: person.name })).toBeVisible();
  });

  test("never leads to another host", async ({ page, browser, baseURL }) => {
    const person = await newClerk(browser, page, baseURL!);
    for (const next of ["https://example.test/", "//example.test/", "/\\example.test", "javascript:alert(1)"]) {
      await page.context().clearCookies();
      await page.goto(`/sign-in?next=${encodeURIComponent(next)}`);
      await signIn(page, person);
      await expect(page).toHaveURL(`${baseURL}/desk`);
    }
  });

  test("a wrong password and an unknown address are told the same way, and the address is kept", async ({ page, browser, baseURL }) => {
    const person = await newClerk(browser, page, baseURL!);
    await page.context().clearCookies();
    const told: string[] = [];
    for (const email of [person.email, makePerson("Nobody").email]) {
      await page.goto("/sign-in");
      await signIn(page, { email, password: "not this one" });
      const alert = page.getByRole("alert").filter({ hasText: "password" });
      await expect(alert).toBeVisible();
      await expect(alert).toBeFocused();
      told.push((await alert.textContent())!);
      await expect(page.getByLabel("E-mail")).toHaveValue(email);
      await expect(page.getByLabel("Password")).toHaveValue("");
    }
    expect(told[0]).toBe("That e-mail and password do not go together. Check both and try again.");
    expect(told[1]).toBe(told[0]);
  });

  test("rests after ten tries and says until when", async ({ page }) => {
    const nobody = makePerson("Nobody");
    await page.goto("/sign-in");
    for (let i = 0; i < 10; i++) {
      await signIn(page, nobody);
      await expect(page.getByRole("alert").filter({ hasText: "do not go together" })).toBeVisible();
      await expect(page.getByLabel("Password")).toHaveValue("");
    }
    await signIn(page, nobody);
    await expect(page.getByRole("alert").filter({ hasText: /^Too many tries\. For safety, signing in rests for 15 minutes, until \d{1,2}:\d{2}\s[AP]M\./ })).toBeVisible();
    await expectAccessible(page);
  });

  test("every fault is told at once, beside its field, and said to those who cannot see it", async ({ page }) => {
    await page.goto("/sign-in");
    await page.getByRole("button", { name: "Sign in" }).click();
    await expect(page.getByLabel("E-mail")).toHaveAccessibleDescription("Enter an e-mail address.");
    await expect(page.getByLabel("Password")).toHaveAccessibleDescription("Enter the password.");
    await expect(page.getByLabel("E-mail")).toBeFocused();
    await expectAccessible(page);
  });
});

test.describe("joining by a link", () => {
  test("asks for what is missing all at once, makes the account, and works once", async ({ page, browser, baseURL }) => {
    const managers = await managersPage(browser, baseURL!);
    const link = await inviteLink(managers, "desk");
    await expect(managers.getByText("It is shown this once and cannot be shown again.", { exact: false })).toBeVisible();
    await managers.reload();
    await expect(managers.getByRole("textbox", { name: "Link", exact: true })).toHaveCount(0);
    await managers.context().close();

    await page.goto(link);
    await expect(page.getByRole("heading", { level: 1 })).toHaveText("Join Quillback Meadow");
    await page.getByLabel("E-mail").fill("pat at example");
    await page.getByLabel("Password").fill("short");
    await page.getByRole("button", { name: "Make my account" }).click();
    await expect(page.getByLabel("Your name")).toHaveAccessibleDescription(/^Enter your name\./);
    await expect(page.getByLabel("E-mail")).toHaveAccessibleDescription("Enter a whole address, such as pat@example.com.");
    await expect(page.getByLabel("Password")).toHaveAccessibleDescription(/^Use at least 12 characters\. This has 5\./);
    await expect(page.getByLabel("E-mail")).toHaveValue("pat at example");
    await expectAccessible(page);

    const person = makePerson("Pat Reed");
    await join(page, link, person);
    await expect(bar(page).getByRole("link", { name: "Accounts" })).toHaveCount(0);
    await page.goto(link);
    await expect(page.getByRole("heading", { level: 1 })).toHaveText("This link no longer works");
  });

  test("an address that has an account is told, and the link stays good", async ({ page, browser, baseURL }) => {
    const person = await newClerk(browser, page, baseURL!);
    const managers = await managersPage(browser, baseURL!);
    const link = await inviteLink(managers, "desk");
    await managers.context().close();
    await page.context().clearCookies();
    await page.goto(link);
    await page.getByLabel("Your name").fill("Again");
    await page.getByLabel("E-mail").fill(person.email);
    await page.getByLabel("Password").fill("a different one");
    await page.getByRole("button", { name: "Make my account" }).click();
    await expect(page.getByLabel("E-mail")).toHaveAccessibleDescription(/^This address has an account already\./);
    await join(page, link, makePerson("Kim Other"));
  });
});

test.describe("who may do what", () => {
  test("the desk gets a page that says it is for managers, with the way back", async ({ page, browser, baseURL }) => {
    await newClerk(browser, page, baseURL!);
    await page.goto("/manage/accounts");
    await expect(page.getByRole("heading", { level: 1 })).toHaveText("For managers");
    await expect(page.getByRole("list", { name: "Accounts of the park" })).toHaveCount(0);
    await expectNoSideways(page);
    await expectAccessible(page);
    await page.getByRole("link", { name: "To the desk" }).click();
    await expect(page).toHaveURL(/\/desk$/);
  });

  test("a manager switches an account off, which is out at once, and on again", async ({ page, browser, baseURL }) => {
    const person = await newClerk(browser, page, baseURL!, "Lou Marsh");
    const managers = await managersPage(browser, baseURL!);
    await managers.goto("/manage/accounts");
    await rowOf(managers, person).getByRole("button", { name: /^Switch off/ }).click();
    await expect(rowOf(managers, person)).toContainText("Switched off");
    await page.goto("/desk");
    await expect(page).toHaveURL(/\/sign-in/);
    await signIn(page, person);
    await expect(page.getByRole("alert").filter({ hasText: "do not go together" })).toBeVisible();
    await rowOf(managers, person).getByRole("button", { name: /^Switch on/ }).click();
    await expect(rowOf(managers, person)).not.toContainText("Switched off");
    await signIn(page, person);
    await expect(bar(page)).toBeVisible();
    await managers.context().close();
  });

  test("a clerk who is made a manager may do more on the next page, and less when made desk again", async ({ page, browser, baseURL }) => {
    const person = await newClerk(browser, page, baseURL!, "Ash Weir");
    const managers = await managersPage(browser, baseURL!);
    await managers.goto("/manage/accounts");
    await rowOf(managers, person).getByRole("button", { name: /^Make manager/ }).click();
    await expect(rowOf(managers, person).getByText("Manager", { exact: true })).toBeVisible();
    await page.goto("/manage/accounts");
    await expect(rowOf(page, person)).toContainText("(you)");
    await rowOf(managers, person).getByRole("button", { name: /^Make desk/ }).click();
    await expect(rowOf(managers, person).getByText("Desk", { exact: true })).toBeVisible();
    // What is still on the screen is refused as well.
    await rowOf(page, person).getByRole("button", { name: /^Switch off/ }).click();
    await expect(page.getByRole("heading", { level: 1 })).toHaveText("For managers");
    await managers.context().close();
  });

  test("a manager hands over a link for a new password, which signs out every device", async ({ page, browser, baseURL }) => {
    const person = await newClerk(browser, page, baseURL!, "Jo Bank");
    const managers = await managersPage(browser, baseURL!);
    await managers.goto("/manage/accounts");
    await rowOf(managers, person).getByRole("button", { name: /^Link for a new password/ }).click();
    const link = await managers.getByRole("textbox", { name: "Link", exact: true }).inputValue();
    const open = managers.getByRole("listitem").filter({ hasText: "For a new password of Jo Bank" });
    await expect(open.first()).toBeVisible();
    await managers.context().close();

    await page.goto(link);
    await expect(page.getByText(person.email, { exact: false })).toBeVisible();
    await page.getByLabel("New password").fill("a fresh one to keep");
    await page.getByRole("button", { name: "Set password" }).click();
    await expect(page.getByText("Your password is set. Sign in with it.")).toBeVisible();
    await signIn(page, { email: person.email, password: "a fresh one to keep" });
    await expect(bar(page)).toBeVisible();
    await page.goto(link);
    await expect(page.getByRole("heading", { level: 1 })).toHaveText("This link no longer works");
  });

  test("a link that is not yet used can be ended", async ({ page, browser, baseURL }) => {
    const managers = await managersPage(browser, baseURL!);
    await managers.goto("/manage/accounts");
    const links = managers.getByRole("region", { name: "Links not yet used" }).getByRole("listitem");
    const link = await inviteLink(managers, "manager");
    await expect(links.filter({ hasText: "To join as a manager" }).last()).toBeVisible();
    // The newest ends last: it stands last among its like.
    await links.filter({ hasText: "To join as a manager" }).last().getByRole("button", { name: /^End link/ }).click();
    await managers.waitForURL("**/manage/accounts");
    await expect.poll(async () => (await page.goto(link)) && page.getByRole("heading", { level: 1 }).textContent()).toBe("This link no longer works");
    await managers.context().close();
  });
});

test.describe("one's own account", () => {
  test("a name and a password are changed, other devices are signed out", async ({ page, browser, baseURL }) => {
    const person = await newClerk(browser, page, baseURL!, "Max Reed");
    const elsewhere = await (await browser.newContext({ baseURL: baseURL! })).newPage();
    await elsewhere.goto("/sign-in?next=/account");
    await signIn(elsewhere, person);
    await expect(elsewhere.getByRole("region", { name: "Where you are signed in" }).getByRole("listitem")).toHaveCount(2);

    await page.goto("/account");
    await page.getByLabel("Your name").fill("Max Reed-Hill");
    await page.getByRole("button", { name: "Save name" }).click();
    await expect(bar(page).getByRole("link", { name: "Max Reed-Hill" })).toBeVisible();
    await page.getByLabel("Present password").fill("not this one");
    await page.getByLabel("New password").fill("short");
    await page.getByRole("button", { name: "Change password" }).click();
    await expect(page.getByLabel("New password")).toHaveAccessibleDescription(/^Use at least 12/);
    await page.getByLabel("Present password").fill("not this one");
    await page.getByLabel("New password").fill("a fresh one to keep");
    await page.getByRole("button", { name: "Change password" }).click();
    await expect(page.getByLabel("Present password")).toHaveAccessibleDescription("That is not your present password.");
    await page.getByLabel("Present password").fill(person.password);
    await page.getByLabel("New password").fill("a fresh one to keep");
    await page.getByRole("button", { name: "Change password" }).click();
    await expect(page.getByText("Changed. Your other devices are signed out.")).toBeVisible();
    await elsewhere.goto("/account");
    await expect(elsewhere).toHaveURL(/\/sign-in/);
    await elsewhere.context().close();
  });

  test("another device is signed out from here", async ({ page, browser, baseURL }) => {
    const person = await newClerk(browser, page, baseURL!, "Ida Holm");
    const elsewhere = await (await browser.newContext({ baseURL: baseURL! })).newPage();
    await elsewhere.goto("/sign-in");
    await signIn(elsewhere, person);
    await expect(bar(elsewhere)).toBeVisible();
    await page.goto("/account");
    const sessions = page.getByRole("region", { name: "Where you are signed in" });
    await sessions.getByRole("listitem").getByRole("button").click();
    await expect(sessions.getByRole("listitem")).toHaveCount(1);
    await elsewhere.goto("/desk");
    await expect(elsewhere).toHaveURL(/\/sign-in/);
    await elsewhere.context().close();
  });
});

test.describe("from another site", () => {
  test("a form that somebody else sends changes nothing", async ({ page, browser, baseURL, request }) => {
    await newClerk(browser, page, baseURL!);
    await page.goto("/account");
    // The form as it is without script, sent with the cookie but from elsewhere.
    const fields = await page.locator("form", { has: page.getByRole("button", { name: "Sign out here" }) }).locator("input[type=hidden]").evaluateAll((inputs) => inputs.map((input) => [(input as HTMLInputElement).name, (input as HTMLInputElement).value]));
    const cookie = (await page.context().cookies()).map(({ name, value }) => `${name}=${value}`).join("; ");
    const send = (origin: string) => request.post("/account", { multipart: Object.fromEntries(fields), headers: { cookie, origin }, maxRedirects: 0 });
    expect((await send("https://elsewhere.example")).status()).toBeGreaterThanOrEqual(400);
    await page.reload();
    await expect(bar(page)).toBeVisible();
    // The same from here does what it says.
    expect((await send(baseURL!)).status()).toBe(303);
    await page.reload();
    await expect(page).toHaveURL(/\/sign-in/);
  });
});

test.describe("without script", () => {
  test.use({ javaScriptEnabled: false });

  test("one joins, signs out, signs in, is told faults, and a manager hands over a link", async ({ page, browser, baseURL }) => {
    const managers = await (await browser.newContext({ storageState: sessionFile("manager", baseURL!), baseURL: baseURL!, javaScriptEnabled: false })).newPage();
    const link = await inviteLink(managers, "desk");
    await managers.context().close();
    const person = makePerson("Noa Script");
    await page.goto(link);
    await page.getByLabel("Password").fill("short");
    await page.getByRole("button", { name: "Make my account" }).click();
    await expect(page.getByText("Use at least 12 characters. This has 5.")).toBeVisible();
    await expect(page.getByText("Enter your name.")).toBeVisible();
    await join(page, link, person);
    await bar(page).getByRole("button", { name: "Sign out" }).click();
    await expect(page.getByText("You are signed out.")).toBeVisible();
    await signIn(page, { email: person.email, password: "wrong wrong wrong" });
    await expect(page.getByText("do not go together", { exact: false })).toBeVisible();
    await expect(page.getByLabel("E-mail")).toHaveValue(person.email);
    await signIn(page, person);
    await expect(bar(page)).toBeVisible();
    await page.goto("/manage/accounts");
    await expect(page.getByRole("heading", { level: 1 })).toHaveText("For managers");
  });
});

test.describe("as a manager", () => {
  test.use({ as: "manager" });

  for (const path of ["/manage/accounts", "/account"]) {
    test(`${path} is accessible and never scrolls sideways`, async ({ page }) => {
      await page.goto(path);
      await expectNoSideways(page);
      await page.setViewportSize({ width: 360, height: 740 });
      await expectNoSideways(page);
      await expectAccessible(page);
    });
  }
});

for (const path of ["/sign-in", "/join/nothing", "/reset/nothing"]) {
  test(`${path} is accessible and never scrolls sideways`, async ({ page }) => {
    await page.goto(path);
    await expectNoSideways(page);
    await page.setViewportSize({ width: 360, height: 740 });
    await expectNoSideways(page);
    await expectAccessible(page);
  });
}
