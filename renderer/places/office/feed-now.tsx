import type { ReactNode } from 'react';
import type { ChannelNow, OtherTopic } from '../../../app/contract/requests/feeds.ts';
import { useFormats } from '../../parts/format.ts';
import { words } from '../../words/words.ts';

const text = words.feeds;

interface FeedTableProps {
  readonly label: string;
  readonly channels: readonly ChannelNow[];
  readonly others: readonly OtherTopic[];
  /** Whether it says where each goes: a feed that is only tried keeps nothing. */
  readonly showsPlaces: boolean;
}

/** What came last of each thermometer, and what comes that belongs to none. */
export function FeedTable({ label, channels, others, showsPlaces }: FeedTableProps): ReactNode {
  const { columns } = text;
  return (
    <div className="stack">
      <div className="feed-scroll" role="region" aria-label={label} tabIndex={0}>
        <table className="feed-table">
          <caption className="feed-caption">{label}</caption>
          <thead>
            <tr>
              <th scope="col">{columns.thermometer}</th><th scope="col">{columns.where}</th><th scope="col">{columns.value}</th><th scope="col">{columns.at}</th>
              {showsPlaces ? <th scope="col">{columns.keptIn}</th> : null}
            </tr>
          </thead>
          <tbody>{channels.map((channel) => <ChannelRow key={channel.instrumentId} channel={channel} showsPlaces={showsPlaces} />)}</tbody>
        </table>
      </div>
      {others.length === 0 ? null : (
        <div>
          <p className="soft">{text.others}</p>
          <ul>{others.map(({ topic, sample }) => <li key={topic}><b>{topic}</b> <span className="soft">{sample}</span></li>)}</ul>
        </div>
      )}
    </div>
  );
}

function ChannelRow({ channel, showsPlaces }: { readonly channel: ChannelNow; readonly showsPlaces: boolean }): ReactNode {
  const { clock } = useFormats();
  const { instrumentName, where, value, problem, keptIn } = channel;
  const seconds = (atMs: number): string => `${clock(atMs)}:${String(Math.floor(atMs / 1000) % 60).padStart(2, '0')}`;
  return (
    <tr>
      <th scope="row">{instrumentName}</th>
      <td>{where}</td>
      <td>{value === null ? (problem ?? text.nothingYet) : <b>{`${shortened(value.text)} °${value.unit}`}</b>}</td>
      <td>{value === null ? '' : seconds(value.atMs)}</td>
      {showsPlaces ? <td>{value === null ? '' : (problem ?? keptIn ?? text.nowhere)}</td> : null}
    </tr>
  );
}

/** A float of 32 bits has many decimals, all of which are kept and few of which are read. */
function shortened(value: string): string {
  return value.length <= 8 ? value : value.slice(0, 8).replace(/\.$/, '').concat('…');
}
