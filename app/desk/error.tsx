"use client";

export { default } from "../manage/error";
