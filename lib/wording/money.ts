import type { Minor } from "@/lib/stays/money";

/** "$1,234.50", "-$12.00", "¥1,200": the currency's own number of places, exactly, without going through a fraction. */
export function formatMoney(amount: Minor, currency: string, tag = "en-US"): string {
  const format = new Intl.NumberFormat(tag, { style: "currency", currency });
  return format.format(decimalOf(amount, format.resolvedOptions().maximumFractionDigits ?? 2) as unknown as number);
}

/** How many places the currency has after the point: 2 for USD, 0 for JPY. */
export function placesOf(currency: string): number {
  return new Intl.NumberFormat("en-US", { style: "currency", currency }).resolvedOptions().maximumFractionDigits ?? 2;
}

/** "1234.50" for 123450 and 2 places: as a field is filled in. */
export function decimalOf(amount: Minor, places: number): string {
  const digits = String(Math.abs(amount)).padStart(places + 1, "0");
  const whole = digits.slice(0, digits.length - places);
  return `${amount < 0 ? "-" : ""}${whole}${places > 0 ? `.${digits.slice(-places)}` : ""}`;
}

/**
 * The minor units that `text` means: "12", "12.5", "$1,234.50", "USD 12". Null where it is none, has more places than the currency, or a comma
 * that parts no thousands: "45,50" may mean 45.50, and is not to be read as 4550.
 */
export function readMoney(text: string, places: number): Minor | null {
  const plain = text.trim().replace(/^[\p{L}\p{Sc}]{0,4}\s*/u, "");
  const parts = /^(\d{1,9}|\d{1,3}(?:,\d{3}){1,2})(?:\.(\d*))?$/.exec(plain);
  if (!parts || (parts[2] ?? "").length > places) return null;
  return Number(parts[1]!.replaceAll(",", "") + (parts[2] ?? "").padEnd(places, "0"));
}
