import type { Page } from "@playwright/test";
import { expect } from "./fixtures";

/** A file as a manager chooses it. */
export const tableFile = (name: string, text: string | Uint8Array) => ({ name, mimeType: "text/csv", buffer: Buffer.from(text) });

/** Sends files to be looked at before they are read in, and waits for the page that says what they would do. */
export async function sendFiles(page: Page, ...files: ReturnType<typeof tableFile>[]): Promise<void> {
  await page.goto("/manage/inventory");
  await page.getByLabel("Files", { exact: true }).setInputFiles(files);
  await page.getByRole("button", { name: "Show what it would do" }).click();
  await expect(page.getByRole("heading", { level: 1, name: "What these files would do" })).toBeVisible();
}
