/** Every text of a label made printable, or the first that is not, by its field. */
import { bad, good, type Outcome, type Problem } from '../measures/outcome.ts';
import type { LabelIngredient, LabelInput, LabelKitchen, LabelOwner } from './label-types.ts';
import { printableText, wordsOnLabel } from './plain-text.ts';

/** Collects the first problem while texts are read, so that a label's many texts need no nesting. */
class TextReader {
  problem: Problem | undefined;

  optional(text: string, field: string): string {
    return this.keep(printableText(text, field), text);
  }

  maybe(text: string | undefined, field: string): string | undefined {
    return text === undefined ? undefined : this.optional(text, field);
  }

  required(text: string, field: string, what: string): string {
    return this.keep(wordsOnLabel(text, field, what), text);
  }

  grams(value: number, field: string): number {
    const isWeight = Number.isFinite(value) && value >= 0;
    return this.keep(isWeight ? good(value) : bad(`${value} g can’t be a weight.`, field, 'Enter grams, zero or more.'), value);
  }

  private keep<T>(read: Outcome<T>, otherwise: T): T {
    if (read.ok) return read.value;
    this.problem ??= read.problem;
    return otherwise;
  }
}

/** The label's input with every text trimmed; or a sentence for the first that is empty where it may not be, or unprintable. */
export function cleanLabel(input: LabelInput): Outcome<LabelInput> {
  const reader = new TextReader();
  const cleaned: LabelInput = {
    ...input,
    kitchen: cleanKitchen(reader, input.kitchen),
    identity: {
      process: input.identity.process,
      marketName: reader.required(input.identity.marketName, 'identity.marketName', 'The market name'),
      form: reader.maybe(input.identity.form, 'identity.form'),
    },
    ingredients: input.ingredients.map((ingredient, place) => cleanIngredient(reader, ingredient, `ingredients.${place}`)),
    owner: input.owner === undefined ? undefined : cleanOwner(reader, input.owner),
  };
  return reader.problem === undefined ? good(cleaned) : { ok: false, problem: reader.problem };
}

function cleanKitchen(reader: TextReader, kitchen: LabelKitchen): LabelKitchen {
  return {
    name: reader.optional(kitchen.name, 'kitchen.name'),
    address: reader.optional(kitchen.address, 'kitchen.address'),
    city: reader.optional(kitchen.city, 'kitchen.city'),
    region: reader.optional(kitchen.region, 'kitchen.region'),
    postalCode: reader.optional(kitchen.postalCode, 'kitchen.postalCode'),
    phone: reader.maybe(kitchen.phone, 'kitchen.phone'),
    role: kitchen.role,
  };
}

function cleanIngredient(reader: TextReader, ingredient: LabelIngredient, field: string): LabelIngredient {
  return {
    name: reader.required(ingredient.name, `${field}.name`, 'The name of an ingredient'),
    grams: reader.grams(ingredient.grams, `${field}.grams`),
    subIngredients: ingredient.subIngredients?.map((part, place) =>
      reader.required(part, `${field}.subIngredients.${place}`, 'A part of an ingredient'),
    ),
    allergens: ingredient.allergens?.map((name, place) => reader.required(name, `${field}.allergens.${place}`, 'An allergen')),
  };
}

function cleanOwner(reader: TextReader, owner: LabelOwner): LabelOwner {
  return {
    name: reader.required(owner.name, 'owner.name', 'The owner’s name'),
    licence: reader.maybe(owner.licence, 'owner.licence'),
    address: reader.maybe(owner.address, 'owner.address'),
    caughtOn: reader.maybe(owner.caughtOn, 'owner.caughtOn'),
    caughtArea: reader.maybe(owner.caughtArea, 'owner.caughtArea'),
    pieces: owner.pieces,
  };
}
