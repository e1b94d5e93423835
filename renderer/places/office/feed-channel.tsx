import type { ReactNode } from 'react';
import type { Output } from '../../../app/contract/contract.ts';
import { Field, Pick } from '../../parts/field.tsx';
import { words } from '../../words/words.ts';
import { PressButton } from '../../parts/button.tsx';
import { ordersOf, REGISTER_TYPES, withType, type ChannelDraft, type FeedForm } from './feed-draft.ts';

const text = words.feeds.form;

interface ChannelProps {
  readonly kind: FeedForm['kind'];
  readonly channel: ChannelDraft;
  readonly number: number;
  readonly office: Output<'office.get'>;
  readonly canGo: boolean;
  /** The refusal of one of its fields, by the field's name. */
  fault(field: string): string | null;
  onChange(channel: ChannelDraft): void;
  onTakeOut(): void;
}

/** One thermometer of a feed: which it is, where it stands, and where in what the device sends it is found. */
export function FeedChannel({ kind, channel, number, office, canGo, fault, onChange, onTakeOut }: ChannelProps): ReactNode {
  const set = (change: Partial<ChannelDraft>): void => onChange({ ...channel, ...change });
  return (
    <fieldset className="feed-channel stack">
      <legend>{text.one(number)}</legend>
      <div className="form-grid">
        <Pick label={text.instrument} value={channel.instrumentId} empty={text.choose} fault={fault('instrumentId')} choices={office.instruments.map(({ id, name }) => ({ id, text: name }))} onChange={(instrumentId) => set({ instrumentId })} />
        <Pick label={text.stands} value={channel.placeId} empty={text.inLoad} fault={fault('placeId')} choices={office.places.map(({ id, name }) => ({ id, text: text.inPlace(name) }))} onChange={(placeId) => set({ placeId })} />
        <Pick label={text.unit} value={channel.unit} choices={(['F', 'C'] as const).map((id) => ({ id, text: text.units[id] }))} onChange={(unit) => set({ unit: unit === 'F' ? 'F' : 'C' })} />
        {kind === 'modbus' ? <RegisterFields channel={channel} fault={fault} onChange={onChange} /> : <TopicFields channel={channel} fault={fault} onChange={onChange} />}
      </div>
      {canGo ? <div><PressButton look="quiet" label={text.takeOutOf(number)} onPress={onTakeOut}>{text.takeOut}</PressButton></div> : null}
    </fieldset>
  );
}

type PartProps = Omit<ChannelProps, 'kind' | 'number' | 'office' | 'canGo' | 'onTakeOut'>;

function RegisterFields({ channel, fault, onChange }: PartProps): ReactNode {
  const set = (change: Partial<ChannelDraft>): void => onChange({ ...channel, ...change });
  return (
    <>
      <Field label={text.register} kind="figure" value={channel.register} fault={fault('register')} onChange={(register) => set({ register })} />
      <Pick label={text.table} value={channel.table} choices={(['holding', 'input'] as const).map((id) => ({ id, text: text.tables[id] }))} onChange={(table) => set({ table: table === 'input' ? 'input' : 'holding' })} />
      <Pick label={text.type} value={channel.type} choices={REGISTER_TYPES.map((id) => ({ id, text: text.types[id] }))} onChange={(id) => onChange(withType(channel, REGISTER_TYPES.find((type) => type === id) ?? channel.type))} />
      <Pick label={text.order} value={channel.order} choices={ordersOf(channel.type).map((id) => ({ id, text: text.orders[id] }))} onChange={(id) => set({ order: ordersOf(channel.type).find((order) => order === id) ?? channel.order })} />
      <Field label={text.scale} kind="figure" help={text.scaleHelp} value={channel.scale} fault={fault('scale')} onChange={(scale) => set({ scale })} />
      <Field label={text.offset} kind="figure" value={channel.offset} fault={fault('offset')} onChange={(offset) => set({ offset })} />
    </>
  );
}

function TopicFields({ channel, fault, onChange }: PartProps): ReactNode {
  const set = (change: Partial<ChannelDraft>): void => onChange({ ...channel, ...change });
  return (
    <>
      <Field label={text.topic} value={channel.topic} fault={fault('topic')} onChange={(topic) => set({ topic })} />
      <Field label={text.path} value={channel.path} fault={fault('path')} onChange={(path) => set({ path })} />
      <Field label={text.timePath} help={text.timeHelp} value={channel.timePath} fault={fault('timePath')} onChange={(timePath) => set({ timePath })} />
    </>
  );
}
