import { count } from "./text";

/** What the counting down of a hold says; on its own, since it goes to the browser. */
export const countdown = {
  left: (seconds: number) => (seconds >= 120 ? `${Math.floor(seconds / 60)} minutes left` : seconds >= 60 ? `1 minute ${seconds % 60} s left` : `${count(seconds, "second", "seconds")} left`),
  over: "The time is up. You can still go on as long as nobody else takes the site.",
} as const;
