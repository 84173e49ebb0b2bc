"""A copy of a recording in which a player can go to any time: browsers write theirs without a table of places."""

from pathlib import Path

#: Forms that are written as a stream, each with the form that its copy gets.
STREAMED = {"matroska,webm": "webm", "mov,mp4,m4a,3gp,3g2,mj2": "mp4"}


def playable(source: Path, folder: Path) -> Path | None:
    """The sound as it is, packed anew as ``playing.*`` in ``folder``; None where that isn't needed or can't be done."""
    import av

    try:
        with av.open(str(source)) as read:
            form = STREAMED.get(read.format.name)
            if form is None or not read.streams.audio:
                return None
            target = folder / f"playing.{form}"
            part = folder / f"playing.{form}.part"
            with av.open(str(part), "w", format=form) as out:
                track = read.streams.audio[0]
                copied = out.add_stream_from_template(track)
                for packet in read.demux(track):
                    if packet.dts is not None:
                        packet.stream = copied
                        out.mux(packet)
    except (av.error.FFmpegError, ValueError, OSError):
        # It can still be played from its start: no reason to refuse to hear it.
        return None
    part.replace(target)
    return target
