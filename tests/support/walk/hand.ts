/** A person's hand on the page: every tap and every typed entry is counted. */
import type { Locator, Page } from '@playwright/test';

export class Hand {
  readonly page: Page;
  /** What was done, in order: its length is what the walk cost. */
  readonly deeds: string[] = [];

  constructor(page: Page) {
    this.page = page;
  }

  /** Sets the page's own clock, as a person at work meets it at that hour; the back room keeps its own. */
  async at(atMs: number): Promise<void> {
    await this.page.clock.setFixedTime(atMs);
  }

  async tap(target: Locator, deed: string): Promise<void> {
    this.deeds.push(`tap ${deed}`);
    await target.click();
  }

  /** A button, link, tab or choice by the words on it. */
  async tapWords(role: 'button' | 'link' | 'radio', name: string | RegExp): Promise<void> {
    const target = this.page.getByRole(role, { name, exact: typeof name === 'string' }).first();
    if (role === 'radio') await this.tap(this.page.locator('label', { has: this.page.getByRole('radio', { name, exact: typeof name === 'string' }) }).first(), String(name));
    else await this.tap(target, String(name));
  }

  /** One entry in a field by its label. */
  async type(label: string, text: string): Promise<void> {
    this.deeds.push(`type ${label}: ${text}`);
    await this.page.getByLabel(label, { exact: true }).first().fill(text);
  }

  /** One choice from a list by its label. */
  async pick(label: string, text: string | RegExp): Promise<void> {
    this.deeds.push(`pick ${label}: ${String(text)}`);
    const list = this.page.getByLabel(label, { exact: true }).first();
    const option = list.locator('option').filter({ hasText: text }).first();
    await list.selectOption(await option.getAttribute('value'));
  }
}
