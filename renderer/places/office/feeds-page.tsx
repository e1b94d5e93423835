import { useEffect, useState, type ReactNode } from 'react';
import type { FeedNow } from '../../../app/contract/requests/feeds.ts';
import type { Failure } from '../../../app/contract/envelope.ts';
import { ask, AskFailure } from '../../bridge/bridge.ts';
import { failureOf, useAsk, useCommand } from '../../bridge/use-ask.ts';
import { PressButton } from '../../parts/button.tsx';
import { Field } from '../../parts/field.tsx';
import { ProblemNote } from '../../parts/problem-note.tsx';
import { words } from '../../words/words.ts';
import { FeedForm } from './feed-form.tsx';
import { FeedTable } from './feed-now.tsx';

const text = words.feeds;
const ASK_EVERY_MS = 1000;

/** The live feeds: how each stands, what it sends now, and the form for one. */
export function FeedsPage(): ReactNode {
  const office = useAsk('office.get', {});
  const list = useAsk('feed.list', {});
  const [editing, setEditing] = useState<FeedNow['feed'] | 'new' | null>(null);
  const { refetch } = list;
  useEffect(() => {
    const timer = setInterval(() => { void refetch(); }, ASK_EVERY_MS);
    return () => clearInterval(timer);
  }, [refetch]);
  if (list.data === undefined || office.data === undefined) return <ProblemNote failure={failureOf(list.error ?? office.error)} />;
  const { feeds } = list.data;
  return (
    <div className="stack">
      <section className="sheet stack">
        <h2>{text.title}</h2>
        <p className="soft">{text.lead}</p>
        {feeds.length === 0 ? <p>{text.none}</p> : null}
        <div><PressButton onPress={() => setEditing('new')}>{text.add}</PressButton></div>
      </section>
      {feeds.map((now) => <FeedSheet key={now.feed.id} now={now} onChange={() => setEditing(now.feed)} />)}
      {editing === null ? null : <FeedForm feed={editing === 'new' ? null : editing} office={office.data} onClose={() => setEditing(null)} />}
    </div>
  );
}

function FeedSheet({ now, onChange }: { readonly now: FeedNow; onChange(): void }): ReactNode {
  const turn = useCommand('feed.switch');
  const { feed, counts } = now;
  const { kind, host, port } = feed.link;
  return (
    <section className="sheet stack" aria-label={feed.name}>
      <div className="spread middle">
        <h2>{feed.name}</h2>
        <div className="row">
          <PressButton label={text.changeOf(feed.name)} onPress={onChange}>{text.change}</PressButton>
          <PressButton label={feed.isOn ? text.switchOffOf(feed.name) : text.switchOnOf(feed.name)} isDisabled={turn.busy} onPress={() => { void turn.send({ feedId: feed.id, isOn: !feed.isOn }); }}>
            {feed.isOn ? text.switchOff : text.switchOn}
          </PressButton>
        </div>
      </div>
      <p className="soft">{text.from(text.kinds[kind], host, port)}</p>
      <p className="strong feed-standing">{now.text}</p>
      {now.state === 'needs-password' ? <PasswordForm name={feed.name} feedId={feed.id} /> : null}
      <ProblemNote failure={turn.failure} />
      {feed.isOn ? (
        <>
          <FeedTable label={text.nowOf(feed.name)} channels={now.channels} others={now.others} showsPlaces />
          <p className="soft small">
            {[
              text.counts(counts.came, counts.kept), ...(counts.repeated === 0 ? [] : [text.repeated(counts.repeated)]),
              ...(counts.homeless === 0 ? [] : [text.homeless(counts.homeless)]), ...(counts.nonsense === 0 ? [] : [text.nonsense(counts.nonsense)]),
            ].join(' ')}
          </p>
        </>
      ) : null}
    </section>
  );
}

/** Asks for the password that the program no longer has. */
function PasswordForm({ name, feedId }: { readonly name: string; readonly feedId: string }): ReactNode {
  const [password, setPassword] = useState('');
  const [failure, setFailure] = useState<Failure | null>(null);
  const send = async (): Promise<void> => {
    try {
      await ask('feed.password', { feedId, password });
      setPassword('');
      setFailure(null);
    } catch (thrown) {
      if (!(thrown instanceof AskFailure)) throw thrown;
      setFailure(thrown.failure);
    }
  };
  return (
    <form className="stack" onSubmit={(event) => { event.preventDefault(); void send(); }}>
      <Field label={text.passwordOf(name)} kind="password" help={text.passwordHelp} value={password} onChange={setPassword} />
      <ProblemNote failure={failure} />
      <div><PressButton look="next" type="submit">{text.givePassword}</PressButton></div>
    </form>
  );
}
