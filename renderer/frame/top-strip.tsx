import { useEffect, useState, type ReactNode } from 'react';
import { PressButton } from '../parts/button.tsx';
import { Leaf } from '../parts/leaf.tsx';
import { words } from '../words/words.ts';
import { useKitchen } from './kitchen.tsx';
import { TheLine } from './the-line.tsx';

type Theme = 'day' | 'night';

/** The line, who is on duty, and day or night. */
export function TopStrip(): ReactNode {
  const { kitchen, onDuty, readOnly } = useKitchen();
  const [asking, setAsking] = useState(onDuty === null);
  const [theme, setTheme] = useState<Theme>(themeAtStart);
  useEffect(() => {
    document.documentElement.dataset['theme'] = theme;
  }, [theme]);
  return (
    <header className="top">
      <TheLine />
      <div className="duty">
        {kitchen.demo ? <span className="invented">{words.frame.invented}</span> : null}
        {readOnly ? <span className="invented">{words.frame.readOnly}</span> : null}
        <div className="row">
          <PressButton onPress={() => setAsking(true)}>{onDuty === null ? words.frame.whoIsOnDuty : words.frame.onDuty(onDuty.initials)}</PressButton>
          <PressButton look="quiet" onPress={() => setTheme(theme === 'day' ? 'night' : 'day')}>
            {theme === 'day' ? words.frame.night : words.frame.day}
          </PressButton>
        </div>
      </div>
      {asking ? <DutyLeaf onClose={() => setAsking(false)} /> : null}
    </header>
  );
}

function themeAtStart(): Theme {
  return window.matchMedia('(prefers-color-scheme: dark)').matches ? 'night' : 'day';
}

function DutyLeaf({ onClose }: { onClose(): void }): ReactNode {
  const { people, setOnDuty } = useKitchen();
  return (
    <Leaf title={words.frame.whoIsOnDuty} onClose={onClose}>
      <p className="soft">{words.frame.tapYourself}</p>
      <div className="form-grid">
        {people.map((person) => (
          <button
            key={person.id}
            type="button"
            className="row-button"
            onClick={() => {
              setOnDuty(person);
              onClose();
            }}
          >
            <span className="strong">{person.initials} {person.name}</span>
            <span className="soft small">{words.frame.roles[person.role]}</span>
          </button>
        ))}
      </div>
    </Leaf>
  );
}
