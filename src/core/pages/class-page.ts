import { type ClassFit, headCount, runSheet, type Timeline, timelineOf } from '../fit/index.ts';
import type { Shop, ShopClass } from '../model/index.ts';
import { classDate } from './class-date.ts';
import { type ClassInCourse, classInCourse } from './course-of.ts';
import { type SiteFrame, siteFrame } from './site-frame.ts';

/** What a class is called, when and where it is: the same on its page, its papers and the front page. */
export interface ClassHead {
  readonly id: string;
  readonly title: string;
  readonly summary?: string;
  /** YYYY-MM-DD */
  readonly date: string;
  /** The date in words of the shop's language. */
  readonly day: string;
  /** Times of day, hh:mm. */
  readonly from: string;
  readonly to: string;
  readonly place?: string;
  /** Address of a map. */
  readonly map?: string;
  /** How many may come. */
  readonly places?: number;
  /** For how many times and kit are reckoned. */
  readonly reckonedFor?: number;
}

/** What every page and paper of a class has: what stands around it, and its head. */
export interface ClassSheet {
  readonly frame: SiteFrame;
  readonly head: ClassHead;
  /** Size the shop prints on. */
  readonly paper: string;
}

/** Everything the page of a class says, in plain values. */
export interface ClassPage extends ClassSheet {
  readonly timeline: Timeline;
  /** Blocks in the order of their clock times. */
  readonly order: readonly { readonly title: string; readonly starts: string }[];
  /** What to bring. */
  readonly bring: readonly string[];
  /** What it is part of and builds on. */
  readonly inCourse?: ClassInCourse;
  /** Lessons it shows or is about. */
  readonly lessons: readonly { readonly id: string; readonly title: string }[];
}

export function classHead(shop: Shop, shopClass: ShopClass): ClassHead {
  const { id, title, summary, date, place, map, capacity } = shopClass;
  const reckonedFor = headCount(shopClass);
  return {
    ...{ id, title, date, ...classDate(shopClass, shop.locale) },
    ...(summary ? { summary } : {}),
    ...(place ? { place } : {}),
    ...(map ? { map } : {}),
    ...(capacity ? { places: capacity } : {}),
    ...(reckonedFor === undefined ? {} : { reckonedFor }),
  };
}

export function classSheet(shop: Shop, shopClass: ShopClass): ClassSheet {
  return { frame: siteFrame(shop), head: classHead(shop, shopClass), paper: shop.info.paper ?? 'A4' };
}

/** The page of a class that was fitted into its slot. */
export function classPage(shop: Shop, shopClass: ShopClass, fit: ClassFit): ClassPage {
  const taught = new Set(
    shopClass.blocks.flatMap(({ treatments, about }) => [about?.lesson, ...treatments.map(({ show }) => show?.lesson)]),
  );
  const inCourse = classInCourse(shop, shopClass);
  return {
    ...classSheet(shop, shopClass),
    ...(inCourse && { inCourse }),
    timeline: timelineOf(fit, shop.locale),
    order: runSheet(fit, shop).map(({ title, starts }) => ({ title, starts })),
    bring: shopClass.bring ?? [],
    lessons: shop.lessons.filter(({ id, draft }) => taught.has(id) && !draft).map(({ id, title }) => ({ id, title })),
  };
}
