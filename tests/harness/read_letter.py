"""Reads one message as a mail program would, with Python's own parser, and tells what it found.

Argument: the file. Output: one JSON object.
"""

import email
import email.policy
import json
import pathlib
import re
import sys

raw = pathlib.Path(sys.argv[1]).read_bytes()
message = email.message_from_bytes(raw, policy=email.policy.default)
text = message.get_body(("plain",))
html = message.get_body(("html",))


def calendar(part):
    lines = part.get_content()
    lines = lines.decode() if isinstance(lines, bytes) else lines
    unfolded = re.sub(r"\r?\n[ \t]", "", lines)
    found = {"longest": max(len(line.encode()) for line in lines.splitlines())}
    for line in unfolded.splitlines():
        name, _, value = line.partition(":")
        found.setdefault(name.split(";")[0], value)
    return found


attached = [
    {"name": part.get_filename(), "kind": part.get_content_type(), "calendar": calendar(part)}
    for part in message.iter_attachments()
]
print(
    json.dumps(
        {
            "subject": message["subject"],
            "from": message["from"],
            "to": message["to"],
            "id": message["message-id"],
            "date": message["date"].datetime.isoformat(),
            "automatic": message["auto-submitted"],
            "headers": [name.lower() for name in message.keys()],
            "text": text.get_content(),
            "html": html.get_content(),
            "attached": attached,
            "defects": [str(defect) for part in message.walk() for defect in part.defects]
            + [str(defect) for name in message for defect in getattr(message[name], "defects", ())],
            "longest": max(len(line) for line in raw.split(b"\r\n")),
            "bare": len(re.findall(rb"(?<!\r)\n|\r(?!\n)", raw)),
        }
    )
)
