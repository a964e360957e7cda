import { expectAccessible, expectNoSideways } from "./expectations";
import { test } from "./fixtures";

for (const path of ["/docs/api", "/no/such/page"]) {
  test(`${path} is accessible and never scrolls sideways`, async ({ page, watch }) => {
    if (path.startsWith("/no/")) watch.allow(/404/);
    await page.goto(path);
    await expectNoSideways(page);
    await page.setViewportSize({ width: 360, height: 740 }); // the narrowest phone
    await expectNoSideways(page);
    await expectAccessible(page);
  });
}
