/** The label of a pack as text. Pure: it needs no book. */
import type { z } from 'zod';
import type { LabelPreviewIn, LabelPreviewOut } from '../../../app/contract/requests/label-preview.ts';
import { composeLabel } from '../../../app/packs/compose-label.ts';
import type { SpeciesNames } from '../../../app/packs/label-types.ts';
import { unwrap } from '../refusal.ts';

/** All it asks of the room: the names of the species. */
interface SpeciesRoom {
  readonly catalogue: { readonly fish: readonly SpeciesNames[] };
}

export const labelPreviewServices = {
  'label.preview': ({ catalogue }: SpeciesRoom, input: z.output<typeof LabelPreviewIn>): z.output<typeof LabelPreviewOut> => {
    const { blocks, missing, code } = unwrap(composeLabel(input, catalogue.fish));
    return { blocks: [...blocks], missing: [...missing], code };
  },
};
