import { useState, type ReactNode } from 'react';
import type { Output } from '../../../app/contract/contract.ts';
import type { Failure } from '../../../app/contract/envelope.ts';
import type { Feed } from '../../../app/contract/requests/feeds.ts';
import { ask, AskFailure } from '../../bridge/bridge.ts';
import { useCommand } from '../../bridge/use-ask.ts';
import { useKitchen } from '../../frame/kitchen.tsx';
import { PressButton } from '../../parts/button.tsx';
import { Choices } from '../../parts/choices.tsx';
import { Field } from '../../parts/field.tsx';
import { Leaf } from '../../parts/leaf.tsx';
import { faultOf, ProblemNote } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';
import { FeedChannel } from './feed-channel.tsx';
import { emptyChannel, emptyForm, formOf, linkOf, withFeedKind, type FeedForm as Draft } from './feed-draft.ts';
import { FeedTable } from './feed-now.tsx';

const text = words.feeds.form;
/** Long enough for a device that sends every few seconds, short enough to wait for. */
const TRY_SECONDS = 6;

interface FeedFormProps {
  /** Null for a new one. */
  readonly feed: Feed | null;
  readonly office: Output<'office.get'>;
  onClose(): void;
}

/** Sets up one feed: how its device is reached, what each thermometer is found under, and a try before it is kept. */
export function FeedForm({ feed, office, onClose }: FeedFormProps): ReactNode {
  const { kitchen, onDuty } = useKitchen();
  const unit = kitchen.temperatureUnit;
  const save = useCommand('feed.save');
  const attempt = useTry();
  const [form, setForm] = useState<Draft>(() => (feed === null ? emptyForm(unit) : formOf(feed, unit)));
  const [password, setPassword] = useState('');
  const failure = save.failure ?? attempt.failure;
  const fault = (path: string): string | null => faultOf(failure, path);
  const wantsPassword = form.kind === 'mqtt' && form.hasPassword;
  const send = async (): Promise<void> => {
    attempt.clear();
    const saved = await save.send({ feedId: form.feedId, name: form.name, link: linkOf(form) });
    if (saved === null) return;
    if (wantsPassword && password !== '') await ask('feed.password', { feedId: saved.feed.id, password });
    onClose();
  };
  const tryIt = (): void => {
    save.clear();
    void attempt.run(form, wantsPassword ? password : null);
  };
  return (
    <Leaf title={feed === null ? text.addTitle : text.changeTitle(feed.name)} wide onClose={onClose}>
      {onDuty?.role === 'manager' || onDuty?.role === 'chef' ? null : <p className="help">{words.feeds.needChef}</p>}
      <Field label={text.name} value={form.name} fault={fault('name')} onChange={(name) => setForm({ ...form, name })} />
      <Choices label={text.kind} value={form.kind} choices={(['modbus', 'mqtt'] as const).map((id) => ({ id, text: words.feeds.kinds[id] }))} onChange={(kind) => setForm(withFeedKind(form, kind))} />
      <div className="form-grid">
        <Field label={form.kind === 'modbus' ? text.host : text.brokerHost} placeholder="192.168.1.20" value={form.host} fault={fault('link.host')} onChange={(host) => setForm({ ...form, host })} />
        <Field label={text.port} kind="figure" value={form.port} fault={fault('link.port')} onChange={(port) => setForm({ ...form, port })} />
      </div>
      {form.kind === 'modbus' ? <DeviceFields form={form} fault={fault} onChange={setForm} /> : <BrokerFields form={form} password={password} fault={fault} onChange={setForm} onPassword={setPassword} />}
      <h2>{text.thermometers}</h2>
      <FeedChannels form={form} office={office} fault={fault} onChange={setForm} />
      <ProblemNote failure={failure} />
      <TriedFeed tried={attempt.tried} />
      <div className="row">
        <PressButton look="next" isDisabled={save.busy || attempt.busy} onPress={() => { void send(); }}>{text.save}</PressButton>
        <PressButton isDisabled={attempt.busy} onPress={tryIt}>{attempt.busy ? text.trying : text.tryIt}</PressButton>
        <PressButton onPress={onClose}>{words.parts.cancel}</PressButton>
      </div>
    </Leaf>
  );
}

interface Trying {
  readonly busy: boolean;
  readonly failure: Failure | null;
  readonly tried: Output<'feed.try'> | null;
  clear(): void;
  run(form: Draft, password: string | null): Promise<void>;
}

function useTry(): Trying {
  const [busy, setBusy] = useState(false);
  const [failure, setFailure] = useState<Failure | null>(null);
  const [tried, setTried] = useState<Output<'feed.try'> | null>(null);
  return {
    busy, failure, tried,
    clear: () => setFailure(null),
    async run(form, password) {
      setBusy(true);
      setFailure(null);
      setTried(null);
      try {
        setTried(await ask('feed.try', { link: linkOf(form), password, seconds: TRY_SECONDS }));
      } catch (thrown) {
        if (!(thrown instanceof AskFailure)) throw thrown;
        setFailure(thrown.failure);
      } finally {
        setBusy(false);
      }
    },
  };
}

function TriedFeed({ tried }: { readonly tried: Output<'feed.try'> | null }): ReactNode {
  if (tried === null) return null;
  return (
    <div className="stack" role="status">
      <p className="strong">{tried.text}</p>
      <FeedTable label={text.tried} channels={tried.channels} others={tried.others} showsPlaces={false} />
    </div>
  );
}

interface PartProps {
  readonly form: Draft;
  fault(path: string): string | null;
  onChange(form: Draft): void;
}

function DeviceFields({ form, fault, onChange }: PartProps): ReactNode {
  return (
    <>
      <div className="form-grid">
        <Field label={text.unitId} kind="figure" value={form.unitId} fault={fault('link.unitId')} onChange={(unitId) => onChange({ ...form, unitId })} />
        <Field label={text.pollSeconds} kind="figure" unit={text.seconds} value={form.pollSeconds} fault={fault('link.pollSeconds')} onChange={(pollSeconds) => onChange({ ...form, pollSeconds })} />
      </div>
      <Choices label={text.countsFrom} value={form.countsFrom === 0 ? 'zero' : 'one'} choices={[{ id: 'one', text: text.from[1] }, { id: 'zero', text: text.from[0] }]} onChange={(id) => onChange({ ...form, countsFrom: id === 'zero' ? 0 : 1 })} />
    </>
  );
}

function BrokerFields({ form, fault, onChange, password, onPassword }: PartProps & { readonly password: string; onPassword(password: string): void }): ReactNode {
  return (
    <>
      <Field label={text.topicFilter} help={text.topicFilterHelp} value={form.topicFilter} fault={fault('link.topicFilter')} onChange={(topicFilter) => onChange({ ...form, topicFilter })} />
      <Field label={text.user} value={form.user} fault={fault('link.user')} onChange={(user) => onChange({ ...form, user })} />
      <Choices label={text.hasPassword} value={form.hasPassword ? 'yes' : 'no'} choices={[{ id: 'no', text: text.no }, { id: 'yes', text: text.yes }]} onChange={(id) => onChange({ ...form, hasPassword: id === 'yes' })} />
      {form.hasPassword ? <Field label={words.feeds.password} kind="password" help={words.feeds.passwordHelp} value={password} onChange={onPassword} /> : null}
    </>
  );
}

function FeedChannels({ form, office, fault, onChange }: PartProps & { readonly office: Output<'office.get'> }): ReactNode {
  const { channels } = form;
  return (
    <>
      {channels.map((channel, index) => (
        <FeedChannel
          key={channel.key}
          kind={form.kind}
          channel={channel}
          number={index + 1}
          office={office}
          canGo={channels.length > 1}
          fault={(field) => fault(`link.channels.${index}.${field}`)}
          onChange={(changed) => onChange({ ...form, channels: channels.with(index, changed) })}
          onTakeOut={() => onChange({ ...form, channels: channels.filter((other) => other !== channel) })}
        />
      ))}
      <div><PressButton onPress={() => onChange({ ...form, channels: [...channels, nextChannel(form)] })}>{text.addOne}</PressButton></div>
    </>
  );
}

/** One more like the last, since a device mostly sends all of its thermometers alike. */
function nextChannel({ channels }: Draft): Draft['channels'][number] {
  const last = channels.at(-1) ?? emptyChannel('C', '0');
  const key = String(Math.max(...channels.map((channel) => Number(channel.key)), 0) + 1);
  return { ...last, key, instrumentId: '', register: '', topic: '' };
}
