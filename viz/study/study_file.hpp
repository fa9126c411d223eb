#pragma once

#include <cstdint>
#include <filesystem>
#include <functional>
#include <memory>
#include <vector>

#include "sim/study_result.hpp"

namespace drumlin::viz {

class H5Reader;

/// What a packed study calls itself.
inline constexpr const char* study_format = "drumlin study 1";

/// A packed study, read a stretch of rows at a time: memory does not grow with the study.
class StudyFile {
 public:
  /// @throws std::runtime_error if it is no study of drumlin, or damaged.
  explicit StudyFile(const std::filesystem::path& path);
  ~StudyFile();
  StudyFile(StudyFile&& other) noexcept;
  StudyFile(const StudyFile&) = delete;
  StudyFile& operator=(const StudyFile&) = delete;
  StudyFile& operator=(StudyFile&&) = delete;

  [[nodiscard]] const sim::StudyHeader& header() const noexcept { return header_; }

  /// Neighbouring values of one column. @throws std::runtime_error naming the file if it is
  /// damaged.
  [[nodiscard]] sim::StudyValues read(std::size_t column, std::uint64_t first,
                                      std::uint64_t count) const;

  /// Calls `take` for one stretch of rows after the other, with the columns asked for.
  void each(const std::vector<std::size_t>& columns,
            const std::function<void(std::uint64_t first, const std::vector<sim::StudyValues>&)>&
                take) const;

 private:
  std::filesystem::path path_;
  std::unique_ptr<H5Reader> file_;
  sim::StudyHeader header_;
};

/// Writes a packed study as CSV: names with units in the first line, RFC 4180 quoting, numbers with
/// as many digits as give the same value back, empty where the model gave none.
/// @throws std::runtime_error; then nothing has changed.
void write_study_csv(const StudyFile& study, const std::filesystem::path& file);

}  // namespace drumlin::viz
