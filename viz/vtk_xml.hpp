#pragma once

#include <filesystem>
#include <fstream>
#include <stdexcept>
#include <string>

/// How VTK's files are written, whatever is in them.
namespace drumlin::viz {

inline void write_text(const std::filesystem::path& path, const std::string& text) {
  std::ofstream file(path, std::ios::binary);
  file << text;
  file.close();
  if (!file) throw std::runtime_error(path.filename().string() + " could not be written");
}

/// Compressed, appended, 32-bit identifiers: small files that every reader of the format takes.
/// Made in memory first: the library goes back and forth in its output many times.
template <class XmlWriter>
void write_xml(XmlWriter& writer, const std::filesystem::path& path) {
  constexpr int level = 1;
  writer.WriteToOutputStringOn();
  writer.SetDataModeToAppended();
  writer.EncodeAppendedDataOff();
  writer.SetCompressorTypeToZLib();
  writer.SetCompressionLevel(level);
  writer.SetIdTypeToInt32();
  if (writer.Write() == 0)
    throw std::runtime_error(path.filename().string() + " could not be written");
  write_text(path, writer.GetOutputString());
}

}  // namespace drumlin::viz
