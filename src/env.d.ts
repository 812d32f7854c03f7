/// <reference types="astro/client" />

declare namespace App {
  /** What the elements of a lesson need to know of it; set by the page before the lesson's text is rendered. */
  interface Locals {
    lesson?: import('./components/lesson-view.ts').LessonView;
  }
}
