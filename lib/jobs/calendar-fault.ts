/** Why an outside calendar could not be read. What is kept of it is the code, and a number where it has one: `status:404`. */
export type CalendarFaultCode =
  /** Not an address that is read: another scheme than http or https, or a name and password in it. */
  | "address"
  /** It leads to this machine or into a private network. */
  | "private-address"
  | "unknown-host"
  | "unreachable"
  /** It, or the reading of what it said, took too long. */
  | "timeout"
  /** Another answer than 200, which one. */
  | "status"
  /** It leads on too often, or to where it is not read from. */
  | "redirect"
  /** Larger than so many bytes. */
  | "too-large"
  | "not-a-calendar"
  /** An event without a beginning that can be understood. */
  | "event-without-date"
  /** Too much else was waiting here. */
  | "busy"
  /** More events, or more repetitions of one, than are looked at. */
  | "too-many";

export class CalendarFault extends Error {
  override readonly name = "CalendarFault";
  constructor(
    readonly code: CalendarFaultCode,
    readonly value: number | null = null,
    options?: ErrorOptions,
  ) {
    super(value === null ? code : `${code}:${value}`, options);
  }
}
