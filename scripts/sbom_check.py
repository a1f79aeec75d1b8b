"""Hold a bill of materials against the schema of its standard; runs in the audit's environment."""

import sys
from pathlib import Path

from cyclonedx.schema import SchemaVersion
from cyclonedx.validation.json import JsonStrictValidator

file = Path(sys.argv[1])
fault = JsonStrictValidator(SchemaVersion.V1_6).validate_str(file.read_text(encoding="utf-8"))
if fault is not None:
    sys.exit(f"{file} is no CycloneDX 1.6: {str(fault).splitlines()[0]}")
print(f"{file}: valid by the schema of CycloneDX 1.6")
