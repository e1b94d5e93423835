import { expect } from '@playwright/test';
import { words } from '../../renderer/words/words.ts';
import { guardPage } from '../support/page-guard.ts';
import { test } from '../support/walk/demo-program.ts';
import { Hand } from '../support/walk/hand.ts';

const { recipes, ingredients, brineBench, parts } = words;

test('a recipe is given out as text and taken in again beside the first, with what it needs', async ({ page, program }) => {
  const guard = await guardPage(page);
  const hand = new Hand(page);
  await page.goto(program.url);
  await hand.tap(page.locator('.row-button').first(), 'on duty');
  await hand.tapWords('link', words.frame.places['brine-bench']);
  await hand.tapWords('link', brineBench.links.recipes);
  await hand.tap(page.getByRole('link', { name: /Spruce tip brine/ }), 'the recipe');
  await expect(page.getByText(/^Version 2/)).toBeVisible();
  await hand.tapWords('button', recipes.giveOut);
  const written = page.getByLabel(recipes.text);
  await expect(written).toHaveValue(/"format": ?"alderbook-recipe"/);
  const file = page.waitForEvent('download');
  await hand.tapWords('button', recipes.saveFile);
  expect((await file).suggestedFilename()).toMatch(/\.json$/);
  const text = await written.inputValue();
  await hand.tapWords('button', parts.close);

  await hand.tap(page.getByRole('link', { name: recipes.title, exact: true }).last(), 'all recipes');
  await hand.tapWords('button', recipes.takeIn);
  await hand.type(recipes.pasted, text.replace('alderbook-recipe', 'another-format'));
  await hand.tapWords('button', recipes.takeInNow);
  await expect(page.getByRole('alert')).toBeVisible();
  await expect(page.getByLabel(recipes.pasted)).not.toHaveValue('');
  await hand.type(recipes.pasted, text);
  await hand.tapWords('button', recipes.takeInNow);
  await expect(page.getByRole('heading', { name: /^Spruce tip brine .*imported/ })).toBeVisible();
  guard.expectQuiet();
});

test('an ingredient is added from its package; what can’t be is said at its field, and what was typed stays', async ({ page, program }) => {
  const guard = await guardPage(page);
  const hand = new Hand(page);
  await page.goto(program.url);
  await hand.tap(page.locator('.row-button').first(), 'on duty');
  await hand.tapWords('link', words.frame.places['brine-bench']);
  await hand.tapWords('link', brineBench.links.ingredients);
  await hand.tapWords('button', ingredients.fresh);
  await hand.type(ingredients.name, 'Dock sauce');
  await hand.type(ingredients.fields.servingGrams, '15');
  await hand.type(ingredients.fields.sodiumMilligrams, '9000');
  await hand.tapWords('button', ingredients.save);
  await expect(page.locator('.fault, .fault-note').first()).toBeVisible();
  await expect(page.getByLabel(ingredients.name, { exact: true })).toHaveValue('Dock sauce');
  await hand.type(ingredients.fields.sodiumMilligrams, '900');
  await hand.tapWords('button', ingredients.save);
  await expect(page.getByRole('dialog')).toHaveCount(0);
  await expect(page.locator('.limit-row').filter({ hasText: 'Dock sauce' })).toContainText('salt 15.25 %');
  guard.expectQuiet();
});

test('a dry cure is rubbed on, not measured as a brine: its card has no bath, and its soak asks for no brine temperature', async ({ page, program }) => {
  const guard = await guardPage(page);
  const hand = new Hand(page);
  await page.goto(program.url);
  await hand.tap(page.locator('.row-button').first(), 'on duty');
  await hand.tapWords('link', words.frame.places['brine-bench']);
  await hand.tap(page.locator('.choices button.choice').first(), 'the lot');
  await hand.type(brineBench.fillets, '5');
  await hand.type(brineBench.thickest, '20');
  await hand.tapWords('radio', brineBench.dryRecipe('Shoreline dry cure'));
  await hand.tapWords('button', brineBench.make);
  await expect(page.getByText(brineBench.cureInAll)).toBeVisible();
  await expect(page.getByText(/litres at/)).toHaveCount(0);
  await expect(page.getByLabel(brineBench.brineTemperature)).toHaveCount(0);
  await hand.tap(page.getByText('Walk-in cooler').first(), 'where it stands');
  await hand.tapWords('button', brineBench.start);
  await expect(page.getByText(/^Started /)).toBeVisible();
  guard.expectQuiet();
});
