import type { VerifyAnswer } from '../../../core/desk/contract/answers.ts';
import { Slip } from '../../kit/Slip.tsx';

/** What checking every file found: nothing, or each trouble with its way out. */
export function Checked({ answer, onClose }: { readonly answer: VerifyAnswer; readonly onClose: () => void }) {
  const { files, problems } = answer;
  return (
    <Slip
      title={problems.length === 0 ? 'Every byte is as it was kept' : 'Something is not as it was kept'}
      open
      onClose={onClose}
    >
      <p>
        {files} files were read and compared with what was noted when they were kept
        {problems.length === 0 ? '.' : `; ${problems.length} ${problems.length === 1 ? 'is' : 'are'} not right:`}
      </p>
      {problems.map(({ say, next, papers }) => (
        <div key={say} className="trouble">
          <p>
            <strong>{say}</strong>
          </p>
          {papers.length === 0 ? null : <p className="small">It belongs to: {papers.join(', ')}.</p>}
          <p>{next}</p>
        </div>
      ))}
    </Slip>
  );
}
